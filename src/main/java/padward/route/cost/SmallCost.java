package padward.route.cost;

/**
 * A cost model in numbers of 31 bits, as the quick searches use them: a held stretch counts {@link
 * #STRETCH} instead of {@link ObstacleCost#PRICE}, which is still beyond the delay of any way
 * across a chip. A search whose costs would pass {@link #MOST} gives up, and its question goes to
 * the general search.
 */
public final class SmallCost {
    /** What one held stretch counts: 2^22 picoseconds, four microseconds. */
    public static final int STRETCH = 1 << 22;

    /** Largest cost that the quick searches handle. */
    public static final int MOST = 1 << 30;

    /** As many stretches as fit. */
    public static final int MOST_STRETCHES = MOST / STRETCH;

    public static final int CLOSED = Integer.MAX_VALUE;

    public final BlockedVertices closed;
    public final ObstacleCost priced;
    public final CongestionCost congested;

    private SmallCost(BlockedVertices closed, ObstacleCost priced, CongestionCost congested) {
        this.closed = closed;
        this.priced = priced;
        this.congested = congested;
    }

    /** The same costs in small numbers, or null for models that only the general search knows. */
    public static SmallCost of(CostModel model) {
        if (model == CostModel.EMPTY_FABRIC) {
            return new SmallCost(BlockedVertices.NONE, null, null);
        }
        if (model instanceof FreeOnlyCost free) {
            return new SmallCost(free.closed(), null, null);
        }
        if (model instanceof ObstacleCost priced) {
            return new SmallCost(priced.closed(), priced, null);
        }
        if (model instanceof CongestionCost congested) {
            return new SmallCost(congested.closed(), null, congested);
        }
        return null;
    }

    /** The cost of a step, in small numbers. */
    public int step(int from, int to, int delayPs) {
        return closed.get(to) ? CLOSED : openStep(from, to, delayPs);
    }

    /** The cost of a step into a vertex that is not closed. */
    public int openStep(int from, int to, int delayPs) {
        int cost = delayPs;
        if (congested != null) {
            cost = (int) Math.min(MOST, congested.price(to, delayPs));
        }
        if (priced != null && priced.isPriced(from, to)) {
            cost += STRETCH;
        }
        return cost;
    }

    /** A cost in the model's own numbers. */
    public long wide(int cost) {
        return priced == null ? cost : cost / STRETCH * ObstacleCost.PRICE + cost % STRETCH;
    }

    /** Whether a sum of costs still tells stretches from delay. */
    public boolean fits(long delayPs) {
        return delayPs < (priced == null ? MOST : STRETCH);
    }
}
