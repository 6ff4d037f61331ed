package padward.watch.logic;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import it.unimi.dsi.fastutil.longs.Long2IntOpenHashMap;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.IntPredicate;
import padward.watch.circuit.TruthTable;

/**
 * Logic functions as a graph of "and" and "exclusive or" of two literals; equal nodes are one. A
 * literal is a node, or its complement: node n is literal 2n, its complement 2n + 1. Nodes are
 * numbered so that each comes after those that it reads. Node 0 is constantly low.
 */
public final class LogicGraph {
    /** The literal that is always low. */
    public static final int LOW = 0;

    /** The literal that is always high. */
    public static final int HIGH = 1;

    private static final int NONE = -1;

    private enum Sort {
        INPUT,
        AND,
        XOR
    }

    private final IntArrayList first = new IntArrayList();
    private final IntArrayList second = new IntArrayList();
    private final ArrayList<Sort> sorts = new ArrayList<>();
    private final IntArrayList depths = new IntArrayList();
    private final Long2IntOpenHashMap ands = new Long2IntOpenHashMap();
    private final Long2IntOpenHashMap xors = new Long2IntOpenHashMap();

    /** An empty graph. */
    public LogicGraph() {
        ands.defaultReturnValue(NONE);
        xors.defaultReturnValue(NONE);
        add(Sort.INPUT, NONE, NONE, 0);
    }

    private int add(Sort sort, int a, int b, int depth) {
        sorts.add(sort);
        first.add(a);
        second.add(b);
        depths.add(depth);
        return 2 * (sorts.size() - 1);
    }

    /** A new input. */
    public int input() {
        return add(Sort.INPUT, NONE, NONE, 0);
    }

    /** The complement of a literal. */
    public static int not(int literal) {
        return literal ^ 1;
    }

    /** The node of a literal. */
    static int node(int literal) {
        return literal >> 1;
    }

    /** Whether a literal is the complement of its node. */
    static boolean isComplement(int literal) {
        return (literal & 1) != 0;
    }

    /** High while both are. */
    public int and(int one, int other) {
        int a = Math.min(one, other);
        int b = Math.max(one, other);
        if (a == LOW || a == not(b)) {
            return LOW;
        }
        if (a == HIGH || a == b) {
            return b;
        }
        return shared(ands, Sort.AND, a, b);
    }

    /** High while at least one is. */
    public int or(int one, int other) {
        return not(and(not(one), not(other)));
    }

    /** High while they differ. */
    public int xor(int one, int other) {
        int complement = (one ^ other) & 1;
        int a = Math.min(one & ~1, other & ~1);
        int b = Math.max(one & ~1, other & ~1);
        if (a == b) {
            return LOW ^ complement;
        }
        return (a == LOW ? b : shared(xors, Sort.XOR, a, b)) ^ complement;
    }

    /** The second where the first is high, else the third. */
    public int choose(int which, int ifHigh, int ifLow) {
        if (ifHigh == ifLow) {
            return ifHigh;
        }
        if (ifHigh == not(ifLow)) {
            return not(xor(which, ifHigh));
        }
        return or(and(which, ifHigh), and(not(which), ifLow));
    }

    private int shared(Long2IntOpenHashMap known, Sort sort, int a, int b) {
        long key = (long) a << Integer.SIZE | b;
        int literal = known.get(key);
        if (literal == NONE) {
            literal = add(sort, a, b, 1 + Math.max(depth(a), depth(b)));
            known.put(key, literal);
        }
        return literal;
    }

    /** Nodes in longest row from an input to it. */
    int depth(int literal) {
        return depths.getInt(node(literal));
    }

    /** How many nodes there are. */
    int nodes() {
        return sorts.size();
    }

    /** Whether a node is an input, or the constant. */
    boolean isInput(int node) {
        return sorts.get(node) == Sort.INPUT;
    }

    /** One of the two literals that a node reads. */
    int first(int node) {
        return first.getInt(node);
    }

    /** The other of the two literals that a node reads. */
    int second(int node) {
        return second.getInt(node);
    }

    /** The inputs on which a literal may depend, as nodes; stops when there are too many. */
    IntSet support(int literal, int most) {
        IntSet seen = new IntOpenHashSet();
        IntSet inputs = new IntOpenHashSet();
        IntArrayList open = new IntArrayList();
        open.add(node(literal));
        while (!open.isEmpty() && inputs.size() <= most) {
            int node = open.popInt();
            if (!seen.add(node)) {
                continue;
            }
            if (isInput(node)) {
                if (node != 0) {
                    inputs.add(node);
                }
            } else {
                open.add(node(first(node)));
                open.add(node(second(node)));
            }
        }
        return inputs;
    }

    /** The value of a literal while the inputs have values. */
    public boolean value(int literal, IntPredicate inputLiteral) {
        return new Evaluation(inputLiteral).of(literal);
    }

    private final class Evaluation {
        private final IntPredicate input;
        private final Map<Integer, Boolean> known = new HashMap<>();

        Evaluation(IntPredicate input) {
            this.input = input;
        }

        boolean of(int literal) {
            int node = node(literal);
            Boolean before = known.get(node);
            if (before == null) {
                before = ofNode(node);
                known.put(node, before);
            }
            return before ^ isComplement(literal);
        }

        private boolean ofNode(int node) {
            if (node == 0) {
                return false;
            }
            return switch (sorts.get(node)) {
                case INPUT -> input.test(2 * node);
                case AND -> of(first(node)) && of(second(node));
                case XOR -> of(first(node)) ^ of(second(node));
            };
        }
    }

    /**
     * The function of a literal over some nodes that cut it off from all inputs.
     *
     * @param leaves the nodes; the i-th is input i
     */
    TruthTable function(int literal, int[] leaves) {
        Map<Integer, TruthTable> known = new HashMap<>();
        known.put(0, TruthTable.of(leaves.length, row -> false));
        for (int i = 0; i < leaves.length; i++) {
            int bit = i;
            known.put(leaves[i], TruthTable.of(leaves.length, row -> (row >> bit & 1) != 0));
        }
        TruthTable table = function(node(literal), known);
        return isComplement(literal) ? table.not() : table;
    }

    private TruthTable function(int node, Map<Integer, TruthTable> known) {
        TruthTable before = known.get(node);
        if (before != null) {
            return before;
        }
        TruthTable a = function(node(first(node)), known);
        TruthTable b = function(node(second(node)), known);
        boolean na = isComplement(first(node));
        boolean nb = isComplement(second(node));
        TruthTable table =
                sorts.get(node) == Sort.AND
                        ? TruthTable.of(a.inputs(), r -> a.value(r) != na && b.value(r) != nb)
                        : TruthTable.of(a.inputs(), r -> a.value(r) ^ na ^ b.value(r) ^ nb);
        known.put(node, table);
        return table;
    }

    /**
     * Adds any function, by Shannon's expansion on its last input first: f = x·f(x = 1) + x'·f(x =
     * 0), where equal cofactors become one node (Shannon, Trans. AIEE 57, 1938).
     *
     * @param inputs literals of its inputs
     */
    public int add(TruthTable function, List<Integer> inputs) {
        if (inputs.size() != function.inputs()) {
            throw new IllegalArgumentException(inputs + " for " + function);
        }
        return add(function, inputs, new HashMap<>());
    }

    private int add(TruthTable function, List<Integer> inputs, Map<TruthTable, Integer> known) {
        if (function.isConstant()) {
            return function.value(0) ? HIGH : LOW;
        }
        Integer before = known.get(function);
        if (before == null) {
            int last = function.inputs() - 1;
            before =
                    choose(
                            inputs.get(last),
                            add(function.with(last, true), inputs, known),
                            add(function.with(last, false), inputs, known));
            known.put(function, before);
        }
        return before;
    }
}
