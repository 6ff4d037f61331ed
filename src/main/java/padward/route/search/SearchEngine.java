package padward.route.search;

import it.unimi.dsi.fastutil.ints.Int2LongLinkedOpenHashMap;
import it.unimi.dsi.fastutil.ints.Int2LongMap;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;

/**
 * What the engines of a {@link PathSearch} have in common: how their results are read, and the one
 * place where a {@link SearchListener} is called.
 *
 * <p>The listener is called from outside the inner loops: the costs of a settled vertex's
 * neighbours are compared before and after its expansion. So the loops carry no hooks, a search
 * that is listened to does the very same steps, and one without a listener pays for one test of a
 * final field for each settled vertex.
 */
abstract class SearchEngine {
    final Fabric fabric;
    private final SearchListener listener;
    private final boolean listened;
    private final EdgeCursor listenedEdges;
    private final Int2LongLinkedOpenHashMap costBefore = new Int2LongLinkedOpenHashMap();

    SearchEngine(Fabric fabric, SearchListener listener) {
        this.fabric = fabric;
        this.listener = listener;
        this.listened = listener != SearchListener.NONE;
        this.listenedEdges = fabric.edgesOut();
    }

    /**
     * The least cost so far of a vertex, in the model's numbers; {@link
     * padward.route.cost.CostModel#CLOSED} when it has not been reached. Final once a sweep ended.
     */
    abstract long cost(int vertex);

    /** The vertices of the cheapest route to a vertex that the last run reached. */
    abstract VertexPath pathTo(int goal);

    /** Bytes that the engine uses for its state. */
    abstract long bytes();

    /** Offers all targets of a settled vertex their cost over it. */
    abstract void expand(int vertex);

    /** Whether an edge may not be used. */
    abstract boolean isClosed(int from, int to, EdgeCursor edge);

    /** The lower bound at a vertex in the model's numbers. */
    abstract long boundAt(int vertex);

    /**
     * Expands a vertex that has just been settled, and reports it to the listener, if there is one.
     */
    final void settle(int vertex) {
        if (listened) {
            reportEdges(vertex);
            expand(vertex);
            reportReached(vertex);
        } else {
            expand(vertex);
        }
    }

    private void reportEdges(int vertex) {
        listener.settled(vertex, cost(vertex));
        costBefore.clear();
        listenedEdges.reset(vertex);
        while (listenedEdges.next()) {
            int to = listenedEdges.other();
            if (isClosed(vertex, to, listenedEdges)) {
                listener.refused(to, vertex);
            } else {
                costBefore.put(to, cost(to));
            }
        }
    }

    private void reportReached(int vertex) {
        for (Int2LongMap.Entry entry : costBefore.int2LongEntrySet()) {
            int to = entry.getIntKey();
            long cost = cost(to);
            if (cost != entry.getLongValue()) {
                listener.reached(to, vertex, cost, boundAt(to));
            }
        }
    }
}
