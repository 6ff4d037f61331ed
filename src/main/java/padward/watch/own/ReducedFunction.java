package padward.watch.own;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import padward.watch.circuit.TruthTable;

/**
 * A function of nets: what is left of a cell's function once constants, pins that make no
 * difference, and pins on one net are taken out.
 *
 * @param nets numbers of the nets; the i-th is bit i of the number of a row
 * @param function the function of these
 */
record ReducedFunction(List<Integer> nets, TruthTable function) {
    /** Of a pin: low, whatever happens. */
    static final int LOW = -1;

    /** Of a pin: high, whatever happens. */
    static final int HIGH = -2;

    /** Of a pin: nothing is connected there. */
    static final int OPEN = -3;

    ReducedFunction {
        nets = List.copyOf(nets);
    }

    /**
     * Reduces a function.
     *
     * @param at by input the number of the net there, or {@link #LOW}, {@link #HIGH} or {@link
     *     #OPEN}; an open input must make no difference
     */
    static ReducedFunction of(TruthTable whole, List<Integer> at) {
        List<Integer> nets = at.stream().filter(n -> n >= 0).distinct().toList();
        TruthTable left = over(whole, at, nets);
        List<Integer> needed = new ArrayList<>(nets);
        for (int i = nets.size() - 1; i >= 0; i--) {
            if (!left.dependsOn(i)) {
                left = left.with(i, false);
                needed.remove(i);
            }
        }
        return new ReducedFunction(needed, left);
    }

    private static TruthTable over(TruthTable whole, List<Integer> at, List<Integer> nets) {
        return TruthTable.of(
                nets.size(),
                row -> {
                    int all = 0;
                    for (int i = 0; i < at.size(); i++) {
                        int net = at.get(i);
                        int level = net >= 0 ? row >> nets.indexOf(net) & 1 : net == HIGH ? 1 : 0;
                        all |= level << i;
                    }
                    return whole.value(all);
                });
    }

    /** The first open input that makes a difference, if there is one. */
    static OptionalInt missing(TruthTable whole, List<Integer> at) {
        for (int i = 0; i < at.size(); i++) {
            if (at.get(i) == OPEN && differs(whole, at, i)) {
                return OptionalInt.of(i);
            }
        }
        return OptionalInt.empty();
    }

    private static boolean differs(TruthTable whole, List<Integer> at, int input) {
        for (int row = 0; row < whole.rows(); row++) {
            boolean possible = (row >> input & 1) == 0;
            for (int i = 0; i < at.size(); i++) {
                boolean high = (row >> i & 1) == 1;
                possible &= high ? at.get(i) != LOW : at.get(i) != HIGH;
            }
            if (possible && whole.value(row) != whole.value(row | 1 << input)) {
                return true;
            }
        }
        return false;
    }

    /** Whether it is one net as it is. */
    boolean isNet() {
        return nets.size() == 1 && !function.value(0) && function.value(1);
    }
}
