package padward.breakout.ask;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntList;
import java.util.function.IntPredicate;
import padward.base.Progress;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.route.search.SearchSources;

/**
 * A route with the fewest steps of a kind: breadth-first over steps that cost nothing or one (a
 * deque of two levels). O(edges reached).
 */
final class CheapestRoute {
    private static final int VERTICES_BETWEEN_CHECKS = 4096;

    private CheapestRoute() {}

    /** Whether the step from one vertex to another costs one. */
    @FunctionalInterface
    interface StepCosts {
        /** Whether it does. */
        boolean costs(int from, int to);
    }

    /**
     * Finds one.
     *
     * @param barred vertices that no route enters
     * @return its vertices from the goal back to a start; empty when there is no route
     */
    static IntList find(
            Fabric fabric,
            SearchSources starts,
            int goal,
            IntPredicate barred,
            StepCosts step,
            Progress progress) {
        Int2IntOpenHashMap before = new Int2IntOpenHashMap();
        before.defaultReturnValue(Fabric.NOTHING);
        IntArrayList level = new IntArrayList();
        for (int i = 0; i < starts.size(); i++) {
            before.put(starts.vertex(i), starts.vertex(i));
            level.add(starts.vertex(i));
        }
        // Steps that cost one wait for the next level.
        IntArrayList from = new IntArrayList();
        IntArrayList into = new IntArrayList();
        EdgeCursor edges = fabric.edgesOut();
        int untilCheck = VERTICES_BETWEEN_CHECKS;
        while (!level.isEmpty() && !before.containsKey(goal)) {
            while (!level.isEmpty()) {
                if (--untilCheck == 0) {
                    untilCheck = VERTICES_BETWEEN_CHECKS;
                    progress.check();
                }
                int vertex = level.popInt();
                edges.reset(vertex);
                while (edges.next()) {
                    int next = edges.other();
                    if (before.containsKey(next) || barred.test(next)) {
                        continue;
                    }
                    if (step.costs(vertex, next)) {
                        from.add(vertex);
                        into.add(next);
                    } else {
                        before.put(next, vertex);
                        level.add(next);
                    }
                }
            }
            for (int i = 0; i < into.size(); i++) {
                if (before.putIfAbsent(into.getInt(i), from.getInt(i)) == Fabric.NOTHING) {
                    level.add(into.getInt(i));
                }
            }
            from.clear();
            into.clear();
        }
        IntArrayList route = new IntArrayList();
        if (before.containsKey(goal)) {
            route.add(goal);
            for (int at = goal; before.get(at) != at; at = before.get(at)) {
                route.add(before.get(at));
            }
        }
        return route;
    }
}
