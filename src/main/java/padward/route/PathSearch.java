package padward.route;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.Arrays;
import java.util.BitSet;
import padward.base.Progress;
import padward.fabric.Corner;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;

/**
 * A* from several starts to one goal (Hart, Nilsson, Raphael 1968); with {@link LowerBound#NONE} it
 * is Dijkstra's search (Numer. Math. 1, 1959, 269-271). Ties go to the vertex that has come
 * farther, which is nearer to the goal.
 *
 * <p>The goal's way is final when the goal is taken from the queue, not when it is first seen.
 *
 * <p>O((V + E) log V) time in the worst case. Its state takes 16 bytes per vertex and is kept
 * between runs; a run resets only what it touched. One object belongs to one thread.
 */
public final class PathSearch {
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
    public PathSearch(Fabric fabric) {
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
    public SearchOutcome run(
            Starts starts,
            int goal,
            Corner corner,
            CostModel model,
            LowerBound bound,
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

    /**
     * The cheapest ways to every vertex that can be reached; {@link #cost} and {@link #pathTo} tell
     * them until the next run.
     *
     * @return false when {@code progress} cancelled
     */
    public boolean sweep(Starts starts, Corner corner, CostModel model, Progress progress) {
        SearchOutcome outcome =
                run(starts, Fabric.NOTHING, corner, model, LowerBound.NONE, progress);
        return !(outcome instanceof SearchOutcome.Cancelled);
    }

    /** After a sweep: the cost of a vertex; {@link CostModel#CLOSED} when it cannot be reached. */
    public long cost(int vertex) {
        return costs[vertex];
    }

    private void relax(int vertex, Corner corner, CostModel model, LowerBound bound) {
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
        if (costs[vertex] == UNSEEN) {
            touched.add(vertex);
        } else if (costs[vertex] <= cost) {
            return;
        }
        costs[vertex] = cost;
        previous[vertex] = from;
        heap.push(vertex, cost + bound.at(vertex), -cost);
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
    public Path pathTo(int goal) {
        IntArrayList reversed = new IntArrayList();
        for (int v = goal; v != Fabric.NOTHING; v = previous[v]) {
            reversed.add(v);
        }
        int[] path = new int[reversed.size()];
        for (int i = 0; i < path.length; i++) {
            path[i] = reversed.getInt(path.length - 1 - i);
        }
        return new Path(path);
    }
}
