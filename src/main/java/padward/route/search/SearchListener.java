package padward.route.search;

/**
 * Is told what a {@link PathSearch} does while it does it, so that a search can be shown or
 * recorded. Costs and estimates are in the model's own numbers. A search that nobody watches runs
 * other classes, which know nothing of watchers.
 */
public interface SearchListener {
    /**
     * A run begins; what was told of an earlier run, which was cut short or could not go on, is
     * void. The starts that the bound leaves open are the first frontier.
     *
     * @param bound what the run estimates the cost ahead with
     */
    void begun(SearchSources starts, int goal, LowerBound bound);

    /** A vertex leaves the frontier: its cost is final. The goal is told too, last of all. */
    void settled(int vertex, long cost);

    /**
     * A vertex gets a first or a lower cost, and waits in the frontier with it.
     *
     * @param from the settled vertex over which it was reached
     * @param cost cost so far
     * @param ahead the estimate of what is still ahead
     */
    void reached(int vertex, int from, long cost, long ahead);

    /** An edge leads into a vertex that may not be entered. Told for each such edge. */
    void refused(int vertex, int from);

    /** The run is over. */
    void ended(SearchOutcome outcome);
}
