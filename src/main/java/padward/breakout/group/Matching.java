package padward.breakout.group;

import java.util.Arrays;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.Set;
import java.util.TreeSet;
import org.jgrapht.alg.interfaces.MatchingAlgorithm;
import org.jgrapht.alg.matching.HopcroftKarpMaximumCardinalityBipartiteMatching;
import org.jgrapht.alg.matching.KuhnMunkresMinimalWeightBipartitePerfectMatching;
import org.jgrapht.graph.DefaultWeightedEdge;
import org.jgrapht.graph.SimpleWeightedGraph;

/**
 * Chooses a column for each row of a table of costs, each column once: JGraphT's matching in the
 * sum form (Kuhn 1955, Munkres 1957), and on top of it the bottleneck forms (Burkard, Dell'Amico
 * and Martello, Assignment Problems, 2009, chapter 6): the smallest maximum cost, and the smallest
 * spread. As few rows as possible get no column, that is {@link #NONE}.
 */
final class Matching {
    /** No column, or a cost that does not exist. */
    static final int NONE = -1;

    private static final double FORBIDDEN = 1e12;

    private Matching() {}

    /** The smallest sum among the choices that serve the most rows. */
    static int[] leastSum(int[][] costs) {
        return leastSum(costs, 0, Integer.MAX_VALUE);
    }

    /** The smallest maximum cost; among these the smallest sum. */
    static int[] leastWorst(int[][] costs) {
        int served = served(leastSum(costs));
        int worst = 0;
        for (int limit : values(costs)) {
            if (mostServed(costs, 0, limit) == served) {
                worst = limit;
                break;
            }
        }
        return leastSum(costs, 0, worst);
    }

    /**
     * The smallest difference between the greatest and the smallest cost; among these the smallest
     * sum.
     */
    static int[] leastSpread(int[][] costs) {
        int served = served(leastSum(costs));
        int[] values = values(costs);
        int from = 0;
        int best = Integer.MAX_VALUE;
        int low = 0;
        int high = Integer.MAX_VALUE;
        // Moving both ends only upwards finds every smallest span.
        for (int to = 0; to < values.length; to++) {
            while (from <= to && mostServed(costs, values[from], values[to]) == served) {
                if (values[to] - values[from] < best) {
                    best = values[to] - values[from];
                    low = values[from];
                    high = values[to];
                }
                from++;
            }
        }
        return leastSum(costs, low, high);
    }

    /**
     * Columns in ascending order from row to row, the smallest sum; {@link #NONE} for rows without
     * a column.
     */
    static int[] inOrder(int[][] costs) {
        int rows = costs.length;
        int columns = rows == 0 ? 0 : costs[0].length;
        // best[i][j]: the cost of the first i rows on the first j columns; an omitted row costs
        // FORBIDDEN.
        double[][] best = new double[rows + 1][columns + 1];
        for (int i = 1; i <= rows; i++) {
            for (int j = 0; j <= columns; j++) {
                best[i][j] = best[i - 1][j] + FORBIDDEN;
                if (j > 0) {
                    best[i][j] = Math.min(best[i][j], best[i][j - 1]);
                    if (costs[i - 1][j - 1] != NONE) {
                        best[i][j] = Math.min(best[i][j], best[i - 1][j - 1] + costs[i - 1][j - 1]);
                    }
                }
            }
        }
        int[] result = new int[rows];
        Arrays.fill(result, NONE);
        int j = columns;
        for (int i = rows; i > 0; i--) {
            while (j > 0 && best[i][j] == best[i][j - 1]) {
                j--;
            }
            boolean taken =
                    j > 0
                            && costs[i - 1][j - 1] != NONE
                            && best[i][j] == best[i - 1][j - 1] + costs[i - 1][j - 1];
            if (taken) {
                result[i - 1] = --j;
            }
        }
        return result;
    }

    private static int served(int[] choice) {
        return (int) Arrays.stream(choice).filter(c -> c != NONE).count();
    }

    private static int[] values(int[][] costs) {
        TreeSet<Integer> values = new TreeSet<>();
        for (int[] row : costs) {
            for (int cost : row) {
                if (cost != NONE) {
                    values.add(cost);
                }
            }
        }
        return values.stream().mapToInt(Integer::intValue).toArray();
    }

    private static int mostServed(int[][] costs, int least, int most) {
        var graph =
                new SimpleWeightedGraph<Integer, DefaultWeightedEdge>(DefaultWeightedEdge.class);
        Set<Integer> rows = new HashSet<>();
        Set<Integer> columns = new HashSet<>();
        for (int i = 0; i < costs.length; i++) {
            rows.add(i);
            graph.addVertex(i);
            for (int j = 0; j < costs[i].length; j++) {
                int column = costs.length + j;
                columns.add(column);
                graph.addVertex(column);
                if (costs[i][j] != NONE && costs[i][j] >= least && costs[i][j] <= most) {
                    graph.addEdge(i, column);
                }
            }
        }
        return new HopcroftKarpMaximumCardinalityBipartiteMatching<>(graph, rows, columns)
                .getMatching()
                .getEdges()
                .size();
    }

    private static int[] leastSum(int[][] costs, int least, int most) {
        int rows = costs.length;
        int columns = rows == 0 ? 0 : costs[0].length;
        int size = Math.max(rows, columns);
        var graph =
                new SimpleWeightedGraph<Integer, DefaultWeightedEdge>(DefaultWeightedEdge.class);
        Set<Integer> left = new LinkedHashSet<>();
        Set<Integer> right = new LinkedHashSet<>();
        for (int i = 0; i < size; i++) {
            left.add(i);
            right.add(size + i);
            graph.addVertex(i);
            graph.addVertex(size + i);
        }
        for (int i = 0; i < size; i++) {
            for (int j = 0; j < size; j++) {
                boolean real = i < rows && j < columns && costs[i][j] != NONE;
                boolean allowed = real && costs[i][j] >= least && costs[i][j] <= most;
                double weight = i >= rows ? 0 : allowed ? costs[i][j] : FORBIDDEN;
                graph.setEdgeWeight(graph.addEdge(i, size + j), weight);
            }
        }
        int[] result = new int[rows];
        Arrays.fill(result, NONE);
        if (size == 0) {
            return result;
        }
        MatchingAlgorithm.Matching<Integer, DefaultWeightedEdge> matching =
                new KuhnMunkresMinimalWeightBipartitePerfectMatching<>(graph, left, right)
                        .getMatching();
        for (DefaultWeightedEdge edge : matching.getEdges()) {
            int row = Math.min(graph.getEdgeSource(edge), graph.getEdgeTarget(edge));
            int column = Math.max(graph.getEdgeSource(edge), graph.getEdgeTarget(edge)) - size;
            if (row < rows && graph.getEdgeWeight(edge) < FORBIDDEN) {
                result[row] = column;
            }
        }
        return result;
    }
}
