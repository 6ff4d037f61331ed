package padward.route;

import java.util.BitSet;
import java.util.function.IntUnaryOperator;

/**
 * Delay, and a price each time that the way comes from what is free, or from one occupant, to what
 * another occupant holds. The price is beyond any delay, so the cheapest way crosses the fewest
 * stretches held by others, and is the quickest among those. An occupant that a way meets twice,
 * with something else between, counts twice here: this finds a good clearance, not a proven fewest.
 */
public final class PricedWays implements CostModel {
    /** Price of one held stretch: one second in picoseconds, beyond the delay of any way. */
    public static final long PRICE = 1_000_000_000_000L;

    private final BitSet closed;
    private final IntUnaryOperator occupant;

    /**
     * @param closed vertices that may not be entered at any price
     * @param occupant number of the occupant to be freed at a vertex, negative when it is free
     */
    public PricedWays(BitSet closed, IntUnaryOperator occupant) {
        this.closed = closed;
        this.occupant = occupant;
    }

    @Override
    public long cost(int from, int to, int delayPs) {
        if (closed.get(to)) {
            return CLOSED;
        }
        int holder = occupant.applyAsInt(to);
        boolean newHolder = holder >= 0 && holder != occupant.applyAsInt(from);
        return newHolder ? delayPs + PRICE : delayPs;
    }
}
