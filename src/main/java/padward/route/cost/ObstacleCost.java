package padward.route.cost;

import java.util.BitSet;
import java.util.function.IntUnaryOperator;

/**
 * Delay, and a price each time that the route comes from what is free, or from one occupant, to
 * what another occupant uses. The price is beyond any delay, so the cheapest route crosses the
 * fewest stretches that others use, and has the least delay among those. An occupant that a route
 * meets twice, with something else between, counts twice here: this finds a good set of obstacles
 * to remove, not one that is proven to be of the fewest.
 *
 * @param closed vertices that may not be entered at any price
 * @param used vertices that have an occupant to be removed; what is closed counts as unused
 * @param occupant number of the occupant at a used vertex
 */
public record ObstacleCost(BlockedVertices closed, BlockedVertices used, IntUnaryOperator occupant)
        implements SmallCostModel {
    /** Price of one used stretch: one second in picoseconds, beyond the delay of any route. */
    public static final long PRICE = 1_000_000_000_000L;

    private static final int FREE = -1;

    /**
     * @param closed vertices that may not be entered at any price; kept, not to be changed
     * @param used vertices with an occupant; kept, not to be changed
     * @param occupant number of the occupant at a used vertex
     */
    public ObstacleCost(BitSet closed, BitSet used, IntUnaryOperator occupant) {
        this(BlockedVertices.of(closed), BlockedVertices.of(used), occupant);
    }

    @Override
    public long cost(int from, int to, int delayPs) {
        if (closed.get(to)) {
            return CLOSED;
        }
        return isPriced(from, to) ? delayPs + PRICE : delayPs;
    }

    /** Whether the step, which is not closed, has to be paid for. */
    private boolean isPriced(int from, int to) {
        return used.get(to) && occupant(to) != occupant(from);
    }

    private int occupant(int vertex) {
        return used.get(vertex) && !closed.get(vertex) ? occupant.applyAsInt(vertex) : FREE;
    }

    @Override
    public SmallCost small() {
        return new Small(this);
    }

    /** {@link SmallCost#STRETCH} in place of {@link #PRICE}. */
    private static final class Small extends SmallCost {
        private final ObstacleCost model;

        Small(ObstacleCost model) {
            super(model.closed, Kind.STRETCHES);
            this.model = model;
        }

        @Override
        int pricedStep(int from, int to, int delayPs) {
            return model.isPriced(from, to) ? delayPs + STRETCH : delayPs;
        }

        @Override
        public boolean isUsed(int vertex) {
            return model.used.get(vertex);
        }
    }
}
