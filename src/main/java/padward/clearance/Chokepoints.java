package padward.clearance;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntList;
import java.util.BitSet;
import padward.fabric.Corner;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.route.CostModel;
import padward.route.Starts;

/**
 * The vertices that every way from some starts to a goal passes: the dominators of the goal in the
 * sense of Lengauer and Tarjan, "A fast algorithm for finding dominators in a flowgraph" (TOPLAS
 * 1(1), 1979, 121-141). For a single goal no dominator tree is needed: along any one way, a vertex
 * is passed by all exactly if no detour from before it comes back behind it. This is the idea of
 * Cairo, Khan, Rizzi, Schmidt, Tomescu and Zirondelli, "A simplified algorithm computing all s-t
 * bridges and articulation points" (2020; cited from memory). O(V + E).
 */
public final class Chokepoints {
    private final EdgeCursor edges;
    private final CostModel model;
    private final Int2IntOpenHashMap indexOnWay = new Int2IntOpenHashMap();
    private final BitSet seen;
    private final IntArrayList open = new IntArrayList();
    private int farthest;

    private Chokepoints(Fabric fabric, CostModel model) {
        this.edges = fabric.edgesOut();
        this.model = model;
        this.seen = new BitSet(fabric.vertexCount());
        indexOnWay.defaultReturnValue(Fabric.NOTHING);
    }

    /**
     * All vertices that every way passes, in the order of the way, the goal last, starts left out;
     * empty when no way leads there.
     *
     * @param starts where ways may set out; any of them will do
     * @param model which edges may be used; their costs do not matter
     */
    public static IntList of(Fabric fabric, Starts starts, int goal, CostModel model) {
        IntList way = anyWay(fabric, starts, goal, model);
        return way.isEmpty() ? way : new Chokepoints(fabric, model).along(way, starts);
    }

    /**
     * The same, along a way that is known.
     *
     * @param way a way that the model allows, from one of the starts to the goal
     */
    static IntList along(Fabric fabric, Starts starts, IntList way, CostModel model) {
        return new Chokepoints(fabric, model).along(way, starts);
    }

    private IntList along(IntList way, Starts starts) {
        for (int i = 0; i < way.size(); i++) {
            indexOnWay.put(way.getInt(i), i);
        }
        farthest = -1;
        for (int i = 0; i < starts.size(); i++) {
            reach(starts.vertex(i));
        }
        explore();
        IntList result = new IntArrayList();
        for (int i = 0; i < way.size(); i++) {
            // The first vertex of the way is a start, and so is not passed but left.
            if (farthest == i && i > 0) {
                result.add(way.getInt(i));
            }
            open.add(way.getInt(i));
            explore();
        }
        return result;
    }

    private void reach(int vertex) {
        int index = indexOnWay.get(vertex);
        if (index != Fabric.NOTHING) {
            farthest = Math.max(farthest, index);
        } else if (!seen.get(vertex)) {
            seen.set(vertex);
            open.add(vertex);
        }
    }

    /** Goes on from what is open; stops wherever the way is met again. */
    private void explore() {
        while (!open.isEmpty()) {
            int vertex = open.popInt();
            edges.reset(vertex);
            while (edges.next()) {
                int next = edges.other();
                long cost = model.cost(vertex, next, edges.delayPs(Corner.FAST));
                if (cost != CostModel.CLOSED) {
                    reach(next);
                }
            }
        }
    }

    /** Some way, found breadth first. */
    private static IntList anyWay(Fabric fabric, Starts starts, int goal, CostModel model) {
        Int2IntOpenHashMap before = new Int2IntOpenHashMap();
        IntArrayList queue = new IntArrayList();
        for (int i = 0; i < starts.size(); i++) {
            before.put(starts.vertex(i), Fabric.NOTHING);
            queue.add(starts.vertex(i));
        }
        EdgeCursor edges = fabric.edgesOut();
        for (int at = 0; at < queue.size() && !before.containsKey(goal); at++) {
            int vertex = queue.getInt(at);
            edges.reset(vertex);
            while (edges.next()) {
                int next = edges.other();
                boolean leads =
                        !before.containsKey(next)
                                && model.cost(vertex, next, edges.delayPs(Corner.FAST))
                                        != CostModel.CLOSED;
                if (leads) {
                    before.put(next, vertex);
                    queue.add(next);
                }
            }
        }
        IntArrayList reversed = new IntArrayList();
        if (before.containsKey(goal)) {
            for (int v = goal; v != Fabric.NOTHING; v = before.get(v)) {
                reversed.add(v);
            }
        }
        IntArrayList way = new IntArrayList(reversed.size());
        for (int i = reversed.size() - 1; i >= 0; i--) {
            way.add(reversed.getInt(i));
        }
        return way;
    }
}
