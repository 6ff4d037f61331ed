package padward.watch.logic;

import java.math.BigInteger;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

/** Numbers without a sign, as literals of their bits, the lowest first. */
public final class Magnitudes {
    private final LogicGraph graph;
    private final ManyInputFunctions many;
    private final int tableInputs;

    Magnitudes(LogicGraph graph, ManyInputFunctions many, int tableInputs) {
        this.tableInputs = tableInputs;
        this.graph = graph;
        this.many = many;
    }

    /** Whether the bits that matter are those of a value. */
    public int equal(List<Integer> bits, BigInteger value, BigInteger care) {
        List<Integer> needed = new ArrayList<>();
        for (int i = 0; i < bits.size(); i++) {
            if (care.testBit(i)) {
                needed.add(value.testBit(i) ? bits.get(i) : LogicGraph.not(bits.get(i)));
            }
        }
        return many.all(needed);
    }

    /** Whether two numbers of as many bits are equal. */
    public int equal(List<Integer> one, List<Integer> other) {
        return many.all(
                IntStream.range(0, one.size())
                        .mapToObj(i -> LogicGraph.not(graph.xor(one.get(i), other.get(i))))
                        .toList());
    }

    /** Whether a number is less than a value, from the lowest bit on. */
    public int less(List<Integer> bits, BigInteger value) {
        if (value.bitLength() > bits.size()) {
            return LogicGraph.HIGH;
        }
        int less = LogicGraph.LOW;
        for (int i = 0; i < bits.size(); i++) {
            int low = LogicGraph.not(bits.get(i));
            less = value.testBit(i) ? graph.or(low, less) : graph.and(low, less);
        }
        return less;
    }

    /** Whether a number is less than another of as many bits, from the lowest bit on. */
    public int less(List<Integer> one, List<Integer> other) {
        int less = LogicGraph.LOW;
        for (int i = 0; i < one.size(); i++) {
            int differ = graph.xor(one.get(i), other.get(i));
            less = graph.choose(differ, other.get(i), less);
        }
        return less;
    }

    /**
     * Whether a number has all the ones of a value. Of numbers that are counted up from 0, the
     * first for which this is so is the value itself, so a counter need not look at its other bits.
     */
    public int hasOnesOf(List<Integer> bits, int value) {
        BigInteger ones = BigInteger.valueOf(value);
        return equal(bits, ones, ones);
    }

    /** A number plus one while a literal is high, else the number; without a carry out. */
    public List<Integer> plusOne(List<Integer> bits, int enable) {
        List<Integer> sum = new ArrayList<>();
        int carry = enable;
        for (int bit : bits) {
            sum.add(graph.xor(bit, carry));
            carry = graph.and(carry, bit);
        }
        return sum;
    }

    /** One of several literals, chosen by a number; low where there is none for it. */
    public int chosen(List<Integer> which, List<Integer> literals) {
        if (literals.isEmpty()) {
            return LogicGraph.LOW;
        }
        if (which.isEmpty()) {
            return literals.get(0);
        }
        boolean four = which.size() % 2 == 0 && tableInputs >= 4 && tableInputs < 6;
        int bits = four ? 2 : 1;
        List<Integer> rest = which.subList(0, which.size() - bits);
        int each = 1 << rest.size();
        List<Integer> parts = new ArrayList<>();
        for (int i = 0; i < 1 << bits; i++) {
            int from = Math.min(literals.size(), i * each);
            int to = Math.min(literals.size(), from + each);
            parts.add(chosen(rest, literals.subList(from, to)));
        }
        int top = which.get(which.size() - 1);
        return four
                ? oneOfFour(which.get(which.size() - 2), top, parts)
                : graph.choose(top, parts.get(1), parts.get(0));
    }

    /**
     * One of four in two tables of four inputs: where the second two are meant, the first table
     * hands on which of them.
     */
    private int oneOfFour(int low, int high, List<Integer> four) {
        int first = graph.choose(high, low, graph.choose(low, four.get(1), four.get(0)));
        return graph.choose(high, graph.choose(first, four.get(3), four.get(2)), first);
    }
}
