package padward.route.search;

import padward.route.cost.CostModel;

/**
 * The cheapest routes from the sources of a sweep to every vertex. It reads the state of the {@link
 * PathSearch} that made it, which the next run of that search overwrites: from then on every read
 * is refused. Belongs to the search's thread.
 */
public final class OneToAll {
    private final PathSearch search;
    private final SearchEngine engine;
    private final long run;

    OneToAll(PathSearch search, SearchEngine engine, long run) {
        this.search = search;
        this.engine = engine;
        this.run = run;
    }

    /**
     * The cost of the cheapest route to a vertex; {@link CostModel#CLOSED} when it cannot be
     * reached. O(1).
     *
     * @throws IllegalStateException when the search has run again
     */
    public long cost(int vertex) {
        checkRun();
        return engine.cost(vertex);
    }

    /**
     * The cheapest route to a vertex. O(edges into the vertices of the route).
     *
     * @throws IllegalStateException when the search has run again
     * @throws IllegalArgumentException when the vertex cannot be reached
     */
    public VertexPath pathTo(int goal) {
        if (cost(goal) == CostModel.CLOSED) {
            throw new IllegalArgumentException("vertex " + goal + " was not reached");
        }
        return engine.pathTo(goal);
    }

    private void checkRun() {
        if (search.runs() != run) {
            throw new IllegalStateException(
                    "result of run " + run + " read after run " + search.runs());
        }
    }
}
