package padward.watch.logic;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import padward.watch.circuit.TruthTable;

/**
 * A function as two lookup tables, one of which reads the other: f(X) = h(g(A), B), where A and B
 * may share inputs. All sets A and B are tried; g exists when, for each value of the inputs that
 * both have, the other inputs of A matter to f in at most two manners (Ashenhurst, "The
 * decomposition of switching functions", 1959). So the answer is "no" only when no two tables are
 * enough.
 */
final class TwoTables {
    /** Most inputs of a function that is looked at: the sets to try grow as the binomials. */
    static final int MOST_INPUTS = 11;

    private TwoTables() {}

    /**
     * The two tables.
     *
     * @param innerInputs inputs of the function that the inner table reads
     * @param inner its contents
     * @param outerInputs inputs of the function that the outer table reads; the inner table's
     *     output comes after them
     * @param outer its contents
     */
    record Pair(
            List<Integer> innerInputs,
            TruthTable inner,
            List<Integer> outerInputs,
            TruthTable outer) {}

    /**
     * Finds them.
     *
     * @param function depends on all its inputs, more than a table has
     */
    static Optional<Pair> find(TruthTable function, int tableInputs) {
        int n = function.inputs();
        if (n > MOST_INPUTS || n > 2 * tableInputs - 1) {
            return Optional.empty();
        }
        int all = (1 << n) - 1;
        for (int inner = 0; inner <= all; inner++) {
            if (Integer.bitCount(inner) != Math.min(tableInputs, n)) {
                continue;
            }
            int sharedCount = tableInputs - 1 - (n - Integer.bitCount(inner));
            // every set of as many shared inputs as the outer table has room for
            for (int shared = inner; ; shared = shared - 1 & inner) {
                if (Integer.bitCount(shared) == Math.min(sharedCount, Integer.bitCount(inner))) {
                    Optional<Pair> pair = split(function, inner, all & ~inner | shared);
                    if (pair.isPresent()) {
                        return pair;
                    }
                }
                if (shared == 0) {
                    break;
                }
            }
        }
        return Optional.empty();
    }

    private static Optional<Pair> split(TruthTable function, int innerSet, int outerSet) {
        List<Integer> inner = inputs(innerSet);
        List<Integer> outer = inputs(outerSet);
        int shared = innerSet & outerSet;
        int rows = 1 << inner.size();
        boolean[] g = new boolean[rows];
        int[] kindOne = new int[1 << Integer.SIZE - Integer.numberOfLeadingZeros(shared)];
        Arrays.fill(kindOne, -1);
        int[] kindTwo = kindOne.clone();
        for (int row = 0; row < rows; row++) {
            int a = spread(row, inner);
            int s = a & shared;
            if (kindOne[s] < 0 || same(function, kindOne[s], a, outerSet & ~innerSet)) {
                kindOne[s] = kindOne[s] < 0 ? a : kindOne[s];
            } else if (kindTwo[s] < 0 || same(function, kindTwo[s], a, outerSet & ~innerSet)) {
                kindTwo[s] = kindTwo[s] < 0 ? a : kindTwo[s];
                g[row] = true;
            } else {
                return Optional.empty();
            }
        }
        TruthTable outerTable =
                TruthTable.of(
                        outer.size() + 1,
                        row -> {
                            int b = spread(row & (1 << outer.size()) - 1, outer);
                            boolean second = row >> outer.size() != 0;
                            int s = b & shared;
                            int a = second && kindTwo[s] >= 0 ? kindTwo[s] : kindOne[s];
                            return function.value(a | b);
                        });
        return Optional.of(
                new Pair(inner, TruthTable.of(inner.size(), r -> g[r]), outer, outerTable));
    }

    /** Whether two values of the inner inputs make the same function of the rest. */
    private static boolean same(TruthTable function, int one, int other, int rest) {
        for (int b = rest; ; b = b - 1 & rest) {
            if (function.value(one | b) != function.value(other | b)) {
                return false;
            }
            if (b == 0) {
                return true;
            }
        }
    }

    private static List<Integer> inputs(int set) {
        List<Integer> inputs = new ArrayList<>();
        for (int i = 0; i < Integer.SIZE; i++) {
            if ((set >> i & 1) != 0) {
                inputs.add(i);
            }
        }
        return inputs;
    }

    /** A row over some inputs as a row over all. */
    private static int spread(int row, List<Integer> inputs) {
        int all = 0;
        for (int i = 0; i < inputs.size(); i++) {
            all |= (row >> i & 1) << inputs.get(i);
        }
        return all;
    }
}
