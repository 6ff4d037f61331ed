package padward.lesson.recording;

/** One step of a search, as a value of one of three kinds. Costs and estimates in picoseconds. */
public sealed interface SearchStep {
    /** The vertex that the step is about. */
    int vertex();

    /**
     * A vertex leaves the frontier: no cheaper route to it can exist.
     *
     * @param cost its cost
     * @param ahead the estimate of the remaining cost
     */
    record Settled(int vertex, long cost, long ahead) implements SearchStep {}

    /**
     * A vertex joins the frontier, or gets cheaper in it.
     *
     * @param from the vertex from which it was reached, {@link padward.fabric.Fabric#NOTHING} for a
     *     start
     * @param cost cost so far
     * @param ahead the estimate of the remaining cost
     */
    record Reached(int vertex, int from, long cost, long ahead) implements SearchStep {}

    /**
     * An edge leads into a vertex that may not be entered; recorded once for each such vertex.
     *
     * @param from the vertex that the edge leaves
     */
    record Refused(int vertex, int from) implements SearchStep {}
}
