package padward.watch.logic;

import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.IntBinaryOperator;

/**
 * "And", "or" and parity of many literals, put together so that each part fills a lookup table: as
 * long as all do not fit into one table, the fullest set that does becomes one literal. With n
 * literals that are inputs, and tables of k inputs, that takes ⌈(n − 1) / (k − 1)⌉ tables, the
 * fewest possible.
 */
public final class ManyInputFunctions {
    private final LogicGraph graph;
    private final int tableInputs;

    /**
     * For tables of some size.
     *
     * @param tableInputs inputs of a lookup table
     */
    public ManyInputFunctions(LogicGraph graph, int tableInputs) {
        this.graph = graph;
        this.tableInputs = tableInputs;
    }

    /** Some literals already put together. */
    private record Part(int literal, IntSet leaves, int depth) {}

    /** High while all are high. */
    public int all(List<Integer> literals) {
        return combined(literals, graph::and, LogicGraph.HIGH);
    }

    /** High while at least one is high. */
    public int any(List<Integer> literals) {
        return LogicGraph.not(all(literals.stream().map(LogicGraph::not).toList()));
    }

    /** High while an odd number is high. */
    public int parity(List<Integer> literals) {
        return combined(literals, graph::xor, LogicGraph.LOW);
    }

    private int combined(List<Integer> literals, IntBinaryOperator operator, int none) {
        List<Part> parts = new ArrayList<>();
        literals.forEach(literal -> parts.add(part(literal)));
        while (leaves(parts).size() > tableInputs) {
            List<Part> fullest = fullest(parts);
            parts.removeAll(fullest);
            int literal = combined(fullest, operator, none);
            int depth = 1 + fullest.stream().mapToInt(Part::depth).max().orElse(0);
            parts.add(new Part(literal, IntSet.of(LogicGraph.node(literal)), depth));
        }
        return parts.stream().mapToInt(Part::literal).reduce(none, operator);
    }

    private static int combined(Iterable<Part> parts, IntBinaryOperator operator, int none) {
        int literal = none;
        for (Part part : parts) {
            literal = operator.applyAsInt(literal, part.literal);
        }
        return literal;
    }

    private Part part(int literal) {
        IntSet support = graph.support(literal, tableInputs);
        return support.size() <= tableInputs
                ? new Part(literal, support, 0)
                : new Part(literal, IntSet.of(LogicGraph.node(literal)), graph.depth(literal));
    }

    private static IntSet leaves(Iterable<Part> parts) {
        IntSet all = new IntOpenHashSet();
        parts.forEach(part -> all.addAll(part.leaves));
        return all;
    }

    /** First fit, the shallowest and then the widest first; of the sets that gives, the fullest. */
    private List<Part> fullest(List<Part> parts) {
        List<Part> sorted = new ArrayList<>(parts);
        sorted.sort(Comparator.comparingInt(Part::depth).thenComparingInt(p -> -p.leaves.size()));
        List<List<Part>> sets = new ArrayList<>();
        for (Part part : sorted) {
            List<Part> set =
                    sets.stream()
                            .filter(s -> fits(s, part))
                            .findFirst()
                            .orElseGet(
                                    () -> {
                                        sets.add(new ArrayList<>());
                                        return sets.get(sets.size() - 1);
                                    });
            set.add(part);
        }
        return sets.stream()
                .max(Comparator.comparingInt((List<Part> s) -> leaves(s).size()))
                .orElseThrow();
    }

    private boolean fits(List<Part> set, Part part) {
        IntSet all = leaves(set);
        all.addAll(part.leaves);
        return all.size() <= tableInputs;
    }
}
