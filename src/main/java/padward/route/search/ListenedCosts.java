package padward.route.search;

import it.unimi.dsi.fastutil.ints.Int2LongLinkedOpenHashMap;
import it.unimi.dsi.fastutil.ints.Int2LongMap;
import java.util.function.IntToLongFunction;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;

/**
 * Sees what the settling of one vertex changes by the costs of its neighbours before and after, so
 * that the search's own code needs no hooks. Belongs to one search.
 */
final class ListenedCosts {
    /** Whether an edge's target may not be entered. */
    interface Shut {
        boolean test(int from, int to, EdgeCursor edge);
    }

    private final SearchListener watcher;
    private final EdgeCursor edges;
    private final IntToLongFunction costOf;
    private final Int2LongLinkedOpenHashMap before = new Int2LongLinkedOpenHashMap();

    /**
     * @param costOf the least cost of a vertex so far, whatever stands for none
     */
    ListenedCosts(Fabric fabric, SearchListener watcher, IntToLongFunction costOf) {
        this.watcher = watcher;
        this.edges = fabric.edgesOut();
        this.costOf = costOf;
    }

    /** A vertex is settled, and its edges are about to be followed. */
    void beforeEdges(int vertex, Shut shut) {
        watcher.settled(vertex, costOf.applyAsLong(vertex));
        before.clear();
        edges.reset(vertex);
        while (edges.next()) {
            int to = edges.other();
            if (shut.test(vertex, to, edges)) {
                watcher.refused(to, vertex);
            } else {
                before.put(to, costOf.applyAsLong(to));
            }
        }
    }

    /** They have been followed. */
    void afterEdges(int vertex, IntToLongFunction ahead) {
        for (Int2LongMap.Entry entry : before.int2LongEntrySet()) {
            int to = entry.getIntKey();
            long cost = costOf.applyAsLong(to);
            if (cost != entry.getLongValue()) {
                watcher.reached(to, vertex, cost, ahead.applyAsLong(to));
            }
        }
    }
}
