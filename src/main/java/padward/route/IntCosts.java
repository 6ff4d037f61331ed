package padward.route;

/**
 * A cost model in numbers of 31 bits, as the quick searches use them: a held stretch counts {@link
 * #STRETCH} instead of {@link PricedWays#PRICE}, which is still beyond the delay of any way across
 * a chip. A search whose costs would pass {@link #MOST} gives up, and its question goes to the
 * general search.
 */
final class IntCosts {
    /** What one held stretch counts: 2^22 picoseconds, four microseconds. */
    static final int STRETCH = 1 << 22;

    /** Largest cost that the quick searches handle. */
    static final int MOST = 1 << 30;

    /** As many stretches as fit. */
    static final int MOST_STRETCHES = MOST / STRETCH;

    static final int CLOSED = Integer.MAX_VALUE;

    final Barrier closed;
    final PricedWays priced;
    final CongestedWays congested;

    private IntCosts(Barrier closed, PricedWays priced, CongestedWays congested) {
        this.closed = closed;
        this.priced = priced;
        this.congested = congested;
    }

    /** The same costs in small numbers, or null for models that only the general search knows. */
    static IntCosts of(CostModel model) {
        if (model == CostModel.EMPTY_FABRIC) {
            return new IntCosts(Barrier.NONE, null, null);
        }
        if (model instanceof FreeWays free) {
            return new IntCosts(free.closed(), null, null);
        }
        if (model instanceof PricedWays priced) {
            return new IntCosts(priced.closed(), priced, null);
        }
        if (model instanceof CongestedWays congested) {
            return new IntCosts(congested.closed(), null, congested);
        }
        return null;
    }

    /** The cost of a step, in small numbers. */
    int step(int from, int to, int delayPs) {
        return closed.get(to) ? CLOSED : openStep(from, to, delayPs);
    }

    /** The cost of a step into a vertex that is not closed. */
    int openStep(int from, int to, int delayPs) {
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
    long wide(int cost) {
        return priced == null ? cost : cost / STRETCH * PricedWays.PRICE + cost % STRETCH;
    }

    /** Whether a sum of costs still tells stretches from delay. */
    boolean fits(long delayPs) {
        return delayPs < (priced == null ? MOST : STRETCH);
    }
}
