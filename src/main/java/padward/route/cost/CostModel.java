package padward.route.cost;

/**
 * What it costs to follow an edge. A model depends on the edge's two ends and its delay only, so
 * that Dijkstra's argument is valid. Costs are whole numbers and never less than the delay: a lower
 * bound on delay is then a lower bound on cost.
 *
 * <p>There are two kinds. A {@link SmallCostModel} is answered by the fast searches, in numbers of
 * 31 bits. A {@link CustomCost} is any other function of a caller's own, answered by the general
 * search in 64 bits over a heap.
 */
public sealed interface CostModel permits SmallCostModel, CustomCost {
    /** The edge may not be used. */
    long CLOSED = Long.MAX_VALUE;

    /** Delay alone, nothing closed: the empty fabric. */
    CostModel EMPTY_FABRIC = new DelayOnlyCost();

    /**
     * The cost of an edge, at least {@code delayPs}, or {@link #CLOSED}.
     *
     * @param from vertex that the edge leaves
     * @param to vertex that the edge enters
     * @param delayPs its delay at the corner of the search, picoseconds
     */
    long cost(int from, int to, int delayPs);
}
