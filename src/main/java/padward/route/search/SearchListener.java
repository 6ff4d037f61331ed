package padward.route.search;

import padward.route.bound.LowerBound;

/**
 * Is called with what a {@link PathSearch} does while it does it, so that a search can be shown or
 * recorded. Costs and bounds are in the model's own numbers. {@link SearchEngine#settle} is the one
 * place where the engines call it.
 */
public interface SearchListener {
    /** Listens to nothing; a search with it does no work for listeners. */
    SearchListener NONE =
            new SearchListener() {
                @Override
                public void begun(SearchSources sources, int goal, LowerBound bound) {}

                @Override
                public void settled(int vertex, long cost) {}

                @Override
                public void reached(int vertex, int from, long cost, long ahead) {}

                @Override
                public void refused(int vertex, int from) {}

                @Override
                public void ended(SearchOutcome outcome) {}
            };

    /**
     * A run begins. What was reported of an earlier run, which was cut short or could not go on, is
     * void. The sources that the bound leaves open are the first frontier.
     *
     * @param bound what the run estimates the cost ahead with
     */
    void begun(SearchSources sources, int goal, LowerBound bound);

    /** A vertex leaves the frontier: its cost is final. The goal is reported too, last of all. */
    void settled(int vertex, long cost);

    /**
     * A vertex gets a first or a lower cost, and waits in the frontier with it.
     *
     * @param from the settled vertex from which it was reached
     * @param cost cost so far
     * @param ahead lower bound on the cost from there to the goal
     */
    void reached(int vertex, int from, long cost, long ahead);

    /** An edge leads into a vertex that may not be entered. Called for each such edge. */
    void refused(int vertex, int from);

    /**
     * The run is over, or stops at its limit. If it goes on then, more is reported, and its end
     * again.
     */
    void ended(SearchOutcome outcome);
}
