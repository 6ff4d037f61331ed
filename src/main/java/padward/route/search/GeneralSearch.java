package padward.route.search;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.Arrays;
import java.util.BitSet;
import padward.base.Progress;
import padward.fabric.Corner;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.route.cost.CostModel;

/**
 * The search for all cost models, in 64 bits over a heap, edge by edge. Its state takes 16 bytes
 * per vertex.
 *
 * @see PathSearch
 */
class GeneralSearch {
    private static final long UNSEEN = CostModel.CLOSED;
    private static final int POPS_BETWEEN_CHECKS = 1024;

    private final Fabric fabric;
    private final EdgeCursor edges;
    private final long[] costs;
    private final int[] previous;
    private final BitSet settled;
    private final IntArrayList touched = new IntArrayList();
    private final VertexHeap heap = new VertexHeap();

    /** A search over one fabric, to be used again and again. O(V). */
    GeneralSearch(Fabric fabric) {
        this.fabric = fabric;
        this.edges = fabric.edgesOut();
        this.costs = new long[fabric.vertexCount()];
        this.previous = new int[fabric.vertexCount()];
        this.settled = new BitSet(fabric.vertexCount());
        Arrays.fill(costs, UNSEEN);
    }

    /**
     * The cheapest way.
     *
     * @param starts where it may begin
     * @param goal where it ends
     * @param corner corner whose delays count
     * @param model what edges cost
     * @param bound a consistent lower bound towards {@code goal}
     * @param progress asked now and then whether to stop
     */
    SearchOutcome run(
            SearchSources starts,
            int goal,
            Corner corner,
            CostModel model,
            LowerBound bound,
            int mostSettled,
            Progress progress) {
        reset();
        for (int i = 0; i < starts.size(); i++) {
            reach(starts.vertex(i), Fabric.NOTHING, starts.cost(i), bound);
        }
        int count = 0;
        while (!heap.isEmpty()) {
            int vertex = heap.pop();
            if (settled.get(vertex)) {
                continue;
            }
            settled.set(vertex);
            count++;
            if (vertex == goal) {
                return new SearchOutcome.Found(pathTo(goal), costs[goal], count);
            }
            if (count >= mostSettled) {
                return new SearchOutcome.Cancelled(count);
            }
            if (count % POPS_BETWEEN_CHECKS == 0) {
                progress.report(-1, "searching, " + count + " vertices settled");
                if (progress.cancelled()) {
                    return new SearchOutcome.Cancelled(count);
                }
            }
            relax(vertex, corner, model, bound);
        }
        return new SearchOutcome.Unreachable(count);
    }

    /** After a sweep: the cost of a vertex; {@link CostModel#CLOSED} when it cannot be reached. */
    final long cost(int vertex) {
        return costs[vertex];
    }

    /** Offers all targets of a settled vertex their cost over it. */
    void relax(int vertex, Corner corner, CostModel model, LowerBound bound) {
        long sofar = costs[vertex];
        edges.reset(vertex);
        while (edges.next()) {
            int next = edges.other();
            if (settled.get(next)) {
                continue;
            }
            long cost = model.cost(vertex, next, edges.delayPs(corner));
            if (cost != CostModel.CLOSED && sofar + cost < costs[next]) {
                reach(next, vertex, sofar + cost, bound);
            }
        }
    }

    private void reach(int vertex, int from, long cost, LowerBound bound) {
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

    /** After a sweep: the way to a vertex that was reached. */
    VertexPath pathTo(int goal) {
        IntArrayList reversed = new IntArrayList();
        for (int v = goal; v != Fabric.NOTHING; v = previous[v]) {
            reversed.add(v);
        }
        return VertexPath.ofReversed(reversed);
    }
}
