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
     * @param proven whether none is cheaper; a search among switches that exclude each other may
     *     stop before it knows
     */
    record Found(VertexPath path, long cost, int settled, boolean proven) implements SearchOutcome {
        /** None is cheaper. */
        public Found(VertexPath path, long cost, int settled) {
            this(path, cost, settled, true);
        }
    }

    /**
     * The goal cannot be reached under the cost model, or no route was found to it.
     *
     * @param proven whether there is none; a search among switches that exclude each other may stop
     *     before it knows
     */
    record Unreachable(int settled, boolean proven) implements SearchOutcome {
        /** It cannot be reached. */
        public Unreachable(int settled) {
            this(settled, true);
        }
    }

    /** The caller cancelled. */
    record Cancelled(int settled) implements SearchOutcome {}
}
