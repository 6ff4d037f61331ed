package padward.lesson.recording;

/** One step of a search, as a value: exactly one of three. Costs and estimates in picoseconds. */
public sealed interface SearchStep {
    /** The vertex that the step is about. */
    int vertex();

    /**
     * A vertex leaves the frontier: no cheaper way to it can be found any more.
     *
     * @param cost its cost
     * @param ahead the estimate of what is still ahead from it
     */
    record Settled(int vertex, long cost, long ahead) implements SearchStep {}

    /**
     * A vertex joins the frontier, or gets cheaper in it.
     *
     * @param from the vertex over which it was reached, {@link padward.fabric.Fabric#NOTHING} for a
     *     start
     * @param cost cost so far
     * @param ahead the estimate of what is still ahead
     */
    record Reached(int vertex, int from, long cost, long ahead) implements SearchStep {}

    /**
     * An edge leads into a vertex that may not be entered; told once for each such vertex.
     *
     * @param from the vertex that the edge leaves
     */
    record Refused(int vertex, int from) implements SearchStep {}
}
