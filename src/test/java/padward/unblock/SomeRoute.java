package padward.unblock;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntList;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashMap;
import java.util.Map;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.route.cost.CostModel;
import padward.route.search.SearchSources;

/** Any way, found breadth first. */
final class SomeRoute {
    private SomeRoute() {}

    /** Its vertices; none when no way leads there. */
    static IntList find(Fabric fabric, SearchSources starts, int goal, CostModel model) {
        Map<Integer, Integer> before = new HashMap<>();
        Deque<Integer> open = new ArrayDeque<>();
        for (int i = 0; i < starts.size(); i++) {
            before.put(starts.vertex(i), Fabric.NOTHING);
            open.add(starts.vertex(i));
        }
        EdgeCursor edges = fabric.edgesOut();
        while (!open.isEmpty() && !before.containsKey(goal)) {
            int vertex = open.remove();
            edges.reset(vertex);
            while (edges.next()) {
                int next = edges.other();
                long cost = model.cost(vertex, next, edges.delayPs(Corner.FAST));
                if (cost != CostModel.CLOSED && before.putIfAbsent(next, vertex) == null) {
                    open.add(next);
                }
            }
        }
        IntList route = new IntArrayList();
        if (before.containsKey(goal)) {
            for (int v = goal; v != Fabric.NOTHING; v = before.get(v)) {
                route.add(0, v);
            }
        }
        return route;
    }
}
