package padward.synth;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayFIFOQueue;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Set;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;

/** Routes the clock net on the wires meant for clocks only, breadth first. */
final class ClockTree {
    private ClockTree() {}

    /**
     * The tree from the clock's driver to all sinks that clock wires reach.
     *
     * @param clockKinds the kinds of wire that are meant for clocks
     * @param reached the list to which the sinks that were reached are added
     */
    static RouteTree grow(
            DraftNetlist plan,
            DraftNetlist.PlannedNet clock,
            Set<String> clockKinds,
            BitSet closed,
            List<Terminal> reached) {
        Fabric fabric = plan.fabric;
        BitSet goals = new BitSet();
        clock.sinks.forEach(s -> goals.set(plan.vertexOf(s)));
        int root = plan.vertexOf(clock.driver);
        Int2IntOpenHashMap previous = new Int2IntOpenHashMap();
        previous.put(root, Fabric.NOTHING);
        IntArrayFIFOQueue queue = new IntArrayFIFOQueue();
        queue.enqueue(root);
        EdgeCursor edges = fabric.edgesOut();
        while (!queue.isEmpty()) {
            int vertex = queue.dequeueInt();
            if (goals.get(vertex)) {
                continue;
            }
            edges.reset(vertex);
            while (edges.next()) {
                int next = edges.other();
                boolean wire = clockKinds.contains(fabric.wireKind(next));
                boolean pin = fabric.kind(next) == VertexKind.PIN && !closed.get(next);
                boolean usable = goals.get(next) || wire || (pin && isOwnInput(fabric, root, next));
                if (usable && !previous.containsKey(next)) {
                    previous.put(next, vertex);
                    queue.enqueue(next);
                }
            }
        }
        RouteTree.Builder tree = new RouteTree.Builder(root);
        for (Terminal sink : clock.sinks) {
            int goal = plan.vertexOf(sink);
            if (previous.containsKey(goal)) {
                reached.add(sink);
                addPath(tree, previous, goal);
            }
        }
        return tree.build();
    }

    /** Only pins of the clock pad's own input register site may lie on the route. */
    private static boolean isOwnInput(Fabric fabric, int root, int pin) {
        return fabric.tile(root) == fabric.tile(pin)
                && fabric.site(fabric.siteOf(pin)).name().contains("inreg");
    }

    private static void addPath(RouteTree.Builder tree, Int2IntOpenHashMap previous, int goal) {
        IntArrayList path = new IntArrayList();
        for (int v = goal; !tree.contains(v); v = previous.get(v)) {
            path.add(v);
        }
        for (int i = path.size() - 1; i >= 0; i--) {
            tree.add(previous.get(path.getInt(i)), path.getInt(i));
        }
    }
}
