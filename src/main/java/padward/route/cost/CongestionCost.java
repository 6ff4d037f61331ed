package padward.route.cost;

/**
 * Congestion prices as McMurchie and Ebeling have them: entering a vertex costs (b + h) · p, with b
 * the delay, h a price of the vertex and p a factor.
 *
 * @param closed vertices that may not be entered
 * @param pricePs h of each vertex in picoseconds, not negative
 * @param times p of each vertex, at least 1. Both arrays are kept, not copied; they may change
 *     between searches but not during one.
 */
public record CongestionCost(BlockedVertices closed, int[] pricePs, int[] times)
        implements CostModel {
    @Override
    public long cost(int from, int to, int delayPs) {
        return closed.get(to) ? CLOSED : price(to, delayPs);
    }

    /** The cost of entering a vertex that is not closed. */
    long price(int to, int delayPs) {
        return ((long) delayPs + pricePs[to]) * times[to];
    }
}
