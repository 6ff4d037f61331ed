package padward.route.cost;

/**
 * What it costs to follow an edge. A model depends on the edge's two ends and its delay only, so
 * that Dijkstra's argument holds. Costs are whole numbers and never less than the delay: a lower
 * bound for delays is then one for costs.
 */
public interface CostModel {
    /** The edge may not be used. */
    long CLOSED = Long.MAX_VALUE;

    /**
     * The cost of an edge, at least {@code delayPs}, or {@link #CLOSED}.
     *
     * @param from vertex that the edge leaves
     * @param to vertex that the edge enters
     * @param delayPs its delay at the searched corner, picoseconds
     */
    long cost(int from, int to, int delayPs);

    /** Delay alone, nothing closed: the empty fabric. */
    CostModel EMPTY_FABRIC = (from, to, delayPs) -> delayPs;
}
