package padward.route.search;

/** What a search ends with: exactly one of three. */
public sealed interface SearchOutcome {
    /** How many vertices the search settled. */
    int settled();

    /**
     * The cheapest route.
     *
     * @param path its vertices, from a start to the goal; not to be changed
     * @param cost its cost, that of the start included
     */
    record Found(VertexPath path, long cost, int settled) implements SearchOutcome {}

    /** The goal cannot be reached under the cost model. */
    record Unreachable(int settled) implements SearchOutcome {}

    /** The caller cancelled. */
    record Cancelled(int settled) implements SearchOutcome {}
}
