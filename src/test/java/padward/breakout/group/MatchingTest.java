package padward.breakout.group;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.function.ToLongFunction;
import org.junit.jupiter.api.Test;

/** Matching against published examples and against trying everything. */
class MatchingTest {
    /** SciPy's manual, linear_sum_assignment: columns 1, 0, 2 at a cost of 5 (recomputed). */
    @Test
    void theManualsExample() {
        int[][] costs = {{4, 1, 3}, {2, 0, 5}, {3, 2, 2}};
        assertThat(Matching.leastSum(costs)).containsExactly(1, 0, 2);
    }

    /**
     * Bottleneck: Burkard, Dell'Amico and Martello, Assignment Problems, chapter 6 (matrix from
     * memory, recomputed): the least greatest cost is 5.
     */
    @Test
    void theBottleneckExample() {
        int[][] costs = {{8, 2, 3, 3}, {2, 7, 5, 8}, {0, 9, 8, 4}, {2, 5, 6, 3}};
        int[] choice = Matching.leastWorst(costs);
        assertThat(worst(costs, choice)).isEqualTo(5);
    }

    /** Where the two differ: the sum's best is 9 with a greatest of 8, the bottleneck's is 5. */
    @Test
    void sumAndBottleneckMayDisagree() {
        int[][] costs = {{1, 5}, {5, 8}};
        assertThat(Matching.leastSum(costs)).containsExactly(0, 1);
        assertThat(Matching.leastWorst(costs)).containsExactly(1, 0);
    }

    @Test
    void everyAimIsAsGoodAsTryingEverything() {
        for (int seed = 0; seed < 300; seed++) {
            Random random = new Random(seed);
            int rows = 1 + random.nextInt(4);
            int columns = 1 + random.nextInt(5);
            int[][] costs = new int[rows][columns];
            for (int[] row : costs) {
                for (int j = 0; j < columns; j++) {
                    row[j] = random.nextInt(4) == 0 ? Matching.NONE : random.nextInt(30);
                }
            }
            List<int[]> all = all(costs, false);
            check(costs, Matching.leastSum(costs), all, c -> sum(costs, c));
            check(costs, Matching.leastWorst(costs), all, c -> worst(costs, c));
            check(costs, Matching.leastSpread(costs), all, c -> spread(costs, c));
            int[] ordered = Matching.inOrder(costs);
            assertThat(isRising(ordered)).isTrue();
            check(costs, ordered, all(costs, true), c -> sum(costs, c));
        }
    }

    private static void check(
            int[][] costs, int[] choice, List<int[]> all, ToLongFunction<int[]> measure) {
        long best = all.stream().mapToLong(c -> rank(c, measure)).min().orElseThrow();
        assertThat(rank(choice, measure)).isEqualTo(best);
        for (int i = 0; i < choice.length; i++) {
            assertThat(choice[i] == Matching.NONE || costs[i][choice[i]] != Matching.NONE).isTrue();
        }
        assertThat(Arrays.stream(choice).filter(c -> c >= 0).distinct().count())
                .isEqualTo(Arrays.stream(choice).filter(c -> c >= 0).count());
    }

    /** Serving more rows comes first. */
    private static long rank(int[] choice, ToLongFunction<int[]> measure) {
        long left = Arrays.stream(choice).filter(c -> c == Matching.NONE).count();
        return left * 1_000_000 + measure.applyAsLong(choice);
    }

    private static long sum(int[][] costs, int[] choice) {
        long sum = 0;
        for (int i = 0; i < choice.length; i++) {
            sum += choice[i] == Matching.NONE ? 0 : costs[i][choice[i]];
        }
        return sum;
    }

    private static long worst(int[][] costs, int[] choice) {
        long worst = 0;
        for (int i = 0; i < choice.length; i++) {
            worst = Math.max(worst, choice[i] == Matching.NONE ? 0 : costs[i][choice[i]]);
        }
        return worst;
    }

    private static long spread(int[][] costs, int[] choice) {
        long least = Long.MAX_VALUE;
        long most = Long.MIN_VALUE;
        for (int i = 0; i < choice.length; i++) {
            if (choice[i] != Matching.NONE) {
                least = Math.min(least, costs[i][choice[i]]);
                most = Math.max(most, costs[i][choice[i]]);
            }
        }
        return most < least ? 0 : most - least;
    }

    private static boolean isRising(int[] choice) {
        int last = -1;
        for (int column : choice) {
            if (column != Matching.NONE) {
                if (column <= last) {
                    return false;
                }
                last = column;
            }
        }
        return true;
    }

    private static List<int[]> all(int[][] costs, boolean rising) {
        List<int[]> result = new ArrayList<>();
        extend(costs, new int[costs.length], 0, result);
        return rising ? result.stream().filter(MatchingTest::isRising).toList() : result;
    }

    private static void extend(int[][] costs, int[] choice, int row, List<int[]> result) {
        if (row == choice.length) {
            result.add(choice.clone());
            return;
        }
        choice[row] = Matching.NONE;
        extend(costs, choice, row + 1, result);
        for (int j = 0; j < costs[row].length; j++) {
            boolean used = false;
            for (int i = 0; i < row; i++) {
                used |= choice[i] == j;
            }
            if (!used && costs[row][j] != Matching.NONE) {
                choice[row] = j;
                extend(costs, choice, row + 1, result);
            }
        }
    }
}
