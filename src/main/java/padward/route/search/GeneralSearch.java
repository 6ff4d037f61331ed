package padward.route.search;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.Arrays;
import java.util.BitSet;
import padward.base.Progress;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.route.bound.LowerBound;
import padward.route.cost.CostModel;
import padward.route.queue.VertexHeap;

/**
 * The search that knows every cost model, in 64 bits over a heap, edge by edge. Its state takes 12
 * bytes per vertex, and more for what was touched.
 *
 * @see PathSearch
 */
final class GeneralSearch extends SearchEngine {
    private static final long UNSEEN = CostModel.CLOSED;
    private static final int POPS_BETWEEN_CHECKS = 1024;

    private final EdgeCursor edges;
    private final long[] costs;
    private final int[] previous;
    private final BitSet settled;
    private final IntArrayList touched = new IntArrayList();
    private final VertexHeap heap = new VertexHeap();
    private Corner corner = Corner.SLOW;
    private CostModel model = CostModel.EMPTY_FABRIC;
    private LowerBound bound = LowerBound.NONE;
    private int goal;
    private int count;
    private boolean atLimit;

    /** A search over one fabric, to be used again and again. O(V). */
    GeneralSearch(Fabric fabric, SearchListener listener) {
        super(fabric, listener);
        this.edges = fabric.edgesOut();
        this.costs = new long[fabric.vertexCount()];
        this.previous = new int[fabric.vertexCount()];
        this.settled = new BitSet(fabric.vertexCount());
        Arrays.fill(costs, UNSEEN);
    }

    /**
     * The cheapest route.
     *
     * @param starts where it may begin
     * @param to where it ends
     * @param delays corner whose delays count
     * @param edgeCosts what edges cost
     * @param lower a consistent lower bound towards {@code to}
     * @param progress asked now and then whether to stop
     */
    SearchOutcome run(
            SearchSources starts,
            int to,
            Corner delays,
            CostModel edgeCosts,
            LowerBound lower,
            int mostSettled,
            Progress progress) {
        reset();
        corner = delays;
        model = edgeCosts;
        bound = lower;
        for (int i = 0; i < starts.size(); i++) {
            reach(starts.vertex(i), Fabric.NOTHING, starts.cost(i));
        }
        goal = to;
        count = 0;
        return goOn(mostSettled, progress);
    }

    /** Goes on with a run that stopped at its limit, until so many vertices are settled in all. */
    SearchOutcome goOn(int mostSettled, Progress progress) {
        atLimit = false;
        while (!heap.isEmpty()) {
            if (count >= mostSettled) {
                atLimit = true;
                return new SearchOutcome.Cancelled(count);
            }
            int vertex = heap.pop();
            if (settled.get(vertex)) {
                continue;
            }
            settled.set(vertex);
            count++;
            if (vertex == goal) {
                return new SearchOutcome.Found(pathTo(goal), costs[goal], count);
            }
            if (count % POPS_BETWEEN_CHECKS == 0) {
                progress.report(-1, "searching, " + count + " vertices settled");
                if (progress.cancelled()) {
                    return new SearchOutcome.Cancelled(count);
                }
            }
            settle(vertex);
        }
        return new SearchOutcome.Unreachable(count);
    }

    /** Whether the last run stopped because as many vertices are settled as its limit allows. */
    boolean isAtLimit() {
        return atLimit;
    }

    @Override
    long cost(int vertex) {
        return costs[vertex];
    }

    @Override
    long boundAt(int vertex) {
        return bound.at(vertex);
    }

    @Override
    boolean isClosed(int from, int to, EdgeCursor edge) {
        return model.cost(from, to, edge.delayPs(corner)) == CostModel.CLOSED;
    }

    @Override
    void expand(int vertex) {
        long sofar = costs[vertex];
        edges.reset(vertex);
        while (edges.next()) {
            int next = edges.other();
            if (settled.get(next)) {
                continue;
            }
            long cost = model.cost(vertex, next, edges.delayPs(corner));
            if (cost != CostModel.CLOSED && sofar + cost < costs[next]) {
                reach(next, vertex, sofar + cost);
            }
        }
    }

    private void reach(int vertex, int from, long cost) {
        long ahead = bound.at(vertex);
        if (ahead == CostModel.CLOSED) {
            return;
        }
        if (costs[vertex] == UNSEEN) {
            touched.add(vertex);
        } else if (costs[vertex] <= cost) {
            return;
        }
        costs[vertex] = cost;
        previous[vertex] = from;
        heap.push(vertex, cost + ahead, -cost);
    }

    private void reset() {
        for (int i = 0; i < touched.size(); i++) {
            costs[touched.getInt(i)] = UNSEEN;
            settled.clear(touched.getInt(i));
        }
        touched.clear();
        heap.clear();
    }

    @Override
    VertexPath pathTo(int goal) {
        IntArrayList reversed = new IntArrayList();
        for (int v = goal; v != Fabric.NOTHING; v = previous[v]) {
            reversed.add(v);
        }
        return VertexPath.ofReversed(reversed);
    }

    @Override
    long bytes() {
        return 12L * costs.length
                + settled.size() / Byte.SIZE
                + 4L * touched.elements().length
                + heap.bytes();
    }
}
