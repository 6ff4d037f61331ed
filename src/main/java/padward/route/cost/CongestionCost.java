package padward.route.cost;

/**
 * Congestion prices of negotiated congestion routing (McMurchie and Ebeling, FPGA'95): entering a
 * vertex costs (b + h) · p, with b the delay, h the history cost of the vertex and p its present
 * factor.
 */
public final class CongestionCost implements SmallCostModel {
    private final BlockedVertices closed;
    private final int[] historyPs;
    private final int[] presentFactor;

    /**
     * Both arrays are kept, not copied; they may change between searches but not during one.
     *
     * @param closed vertices that may not be entered
     * @param historyPs h of each vertex in picoseconds, not negative
     * @param presentFactor p of each vertex, at least 1
     */
    public CongestionCost(BlockedVertices closed, int[] historyPs, int[] presentFactor) {
        this.closed = closed;
        this.historyPs = historyPs;
        this.presentFactor = presentFactor;
    }

    @Override
    public long cost(int from, int to, int delayPs) {
        return closed.get(to) ? CLOSED : price(to, delayPs);
    }

    /** The cost of entering a vertex that is not closed. */
    private long price(int to, int delayPs) {
        return ((long) delayPs + historyPs[to]) * presentFactor[to];
    }

    @Override
    public SmallCost small() {
        return new Small(this);
    }

    /** The same prices, cut off where the fast searches end. */
    private static final class Small extends SmallCost {
        private final CongestionCost model;

        Small(CongestionCost model) {
            super(model.closed, Kind.CONGESTION);
            this.model = model;
        }

        @Override
        int pricedStep(int from, int to, int delayPs) {
            return (int) Math.min(LARGEST, model.price(to, delayPs));
        }

        @Override
        public int[] historyPs() {
            return model.historyPs;
        }

        @Override
        public int[] presentFactor() {
            return model.presentFactor;
        }
    }
}
