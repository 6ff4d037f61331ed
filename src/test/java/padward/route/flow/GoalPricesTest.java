package padward.route.flow;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * The prices are dual values: what rows pay at these prices, less the prices, is the least sum, as
 * found by trying all choices (duality of the assignment problem).
 */
class GoalPricesTest {
    @Test
    void theyProveTheLeastSum() {
        for (int seed = 0; seed < 2_000; seed++) {
            Random random = new Random(seed);
            int[][] costs = new int[1 + random.nextInt(5)][1 + random.nextInt(5)];
            for (int[] row : costs) {
                for (int i = 0; i < row.length; i++) {
                    row[i] = random.nextInt(4) == 0 ? DisjointFlow.UNSERVED : random.nextInt(20);
                }
            }
            int[] prices = GoalPrices.ofColumns(costs);
            long proven = 0;
            for (int[] row : costs) {
                long least = DisjointFlow.UNSERVED;
                for (int i = 0; i < row.length; i++) {
                    least = Math.min(least, (long) row[i] + prices[i]);
                }
                proven += least;
            }
            for (int price : prices) {
                assertThat(price).isNotNegative();
                proven -= price;
            }
            assertThat(proven).as("seed %d", seed).isEqualTo(leastSum(costs, 0, 0));
        }
    }

    private static long leastSum(int[][] costs, int row, int taken) {
        if (row == costs.length) {
            return 0;
        }
        long least = DisjointFlow.UNSERVED + leastSum(costs, row + 1, taken);
        for (int i = 0; i < costs[row].length; i++) {
            if ((taken >> i & 1) == 0) {
                least = Math.min(least, costs[row][i] + leastSum(costs, row + 1, taken | 1 << i));
            }
        }
        return least;
    }

    @Test
    void noRowsNeedNoPrices() {
        assertThat(GoalPrices.ofColumns(new int[0][0])).isEmpty();
    }
}
