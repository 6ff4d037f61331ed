package padward.route.flow;

import it.unimi.dsi.fastutil.ints.Int2IntMap;
import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.CancellationException;
import padward.base.Progress;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.route.bound.FabricIndex;
import padward.route.bound.LowerBound;
import padward.route.cost.CostModel;
import padward.route.search.SearchSources;

/**
 * Prices for goals by which each net's cheapest goal is one of its own, if routes cost what they do
 * on the empty fabric: the dual values of an assignment of nets to goals (Kuhn 1955, as shortest
 * augmenting paths in a table). Any prices are correct; good ones save a flow most of its
 * searching.
 */
final class GoalPrices {
    /** Of a tree so many vertices are looked at. */
    private static final int MOST_STARTS = 64;

    /** Beyond so many steps the assignment would take longer than it saves. */
    private static final double MOST_STEPS = 1e9;

    private static final int NONE = -1;

    private GoalPrices() {}

    /** By goals' vertices their prices, for those that have one. */
    static Int2IntMap of(
            Fabric fabric,
            Corner corner,
            List<SearchSources> nets,
            List<FlowGoal> goals,
            Progress progress) {
        Int2IntOpenHashMap result = new Int2IntOpenHashMap();
        if ((double) nets.size() * nets.size() * (goals.size() + nets.size()) > MOST_STEPS) {
            return result;
        }
        try {
            int[] prices = ofColumns(table(fabric, corner, nets, goals, progress));
            for (int goal = 0; goal < goals.size(); goal++) {
                if (prices[goal] > 0) {
                    result.put(goals.get(goal).vertex(), prices[goal]);
                }
            }
        } catch (CancellationException stopped) {
            // The flow will be stopped in its turn.
            result.clear();
        }
        return result;
    }

    /** By net and goal what the route costs at the least. */
    private static int[][] table(
            Fabric fabric,
            Corner corner,
            List<SearchSources> nets,
            List<FlowGoal> goals,
            Progress progress) {
        int[][] result = new int[nets.size()][goals.size()];
        for (int goal = 0; goal < goals.size(); goal++) {
            progress.check();
            LowerBound bound =
                    FabricIndex.of(fabric).bestBound(goals.get(goal).vertex(), corner, progress);
            for (int net = 0; net < nets.size(); net++) {
                long least = DisjointFlow.UNSERVED;
                SearchSources starts = nets.get(net);
                int step = 1 + (starts.size() - 1) / MOST_STARTS;
                for (int i = 0; i < starts.size(); i += step) {
                    long left = bound.at(starts.vertex(i));
                    if (left != CostModel.CLOSED) {
                        long cost = starts.cost(i) + left + goals.get(goal).cost();
                        least = Math.min(least, cost);
                    }
                }
                result[net][goal] = (int) least;
            }
        }
        return result;
    }

    /**
     * The columns' dual values in the assignment of the least sum, where a row may also stay
     * without a column for {@link DisjointFlow#UNSERVED}.
     */
    static int[] ofColumns(int[][] costs) {
        int rows = costs.length;
        int columns = rows == 0 ? 0 : costs[0].length;
        // The last column takes all rows that stay without one.
        int all = columns + 1;
        int[] rowOf = new int[all];
        Arrays.fill(rowOf, NONE);
        long[] ofRow = new long[rows];
        long[] ofColumn = new long[all];
        long[] reached = new long[all];
        int[] by = new int[all];
        for (int row = 0; row < rows; row++) {
            Arrays.fill(reached, Long.MAX_VALUE);
            boolean[] done = new boolean[all];
            int at = NONE;
            int thisRow = row;
            long length = 0;
            while (true) {
                int least = NONE;
                for (int column = 0; column < all; column++) {
                    if (done[column]) {
                        continue;
                    }
                    long cost = column == columns ? DisjointFlow.UNSERVED : costs[thisRow][column];
                    long label = length + cost - ofRow[thisRow] + ofColumn[column];
                    if (label < reached[column]) {
                        reached[column] = label;
                        by[column] = at;
                    }
                    if (least == NONE || reached[column] < reached[least]) {
                        least = column;
                    }
                }
                at = least;
                length = reached[at];
                if (at == columns || rowOf[at] == NONE) {
                    break;
                }
                done[at] = true;
                thisRow = rowOf[at];
            }
            ofRow[row] += length;
            for (int column = 0; column < columns; column++) {
                if (done[column]) {
                    ofRow[rowOf[column]] += length - reached[column];
                    ofColumn[column] += length - reached[column];
                }
            }
            while (at != NONE) {
                int before = by[at];
                if (at != columns) {
                    rowOf[at] = before == NONE ? row : rowOf[before];
                }
                at = before;
            }
        }
        int[] result = new int[columns];
        for (int column = 0; column < columns; column++) {
            result[column] = (int) Math.min(ofColumn[column], DisjointFlow.UNSERVED);
        }
        return result;
    }
}
