package padward.route.cost;

import java.util.BitSet;
import java.util.function.IntUnaryOperator;

/**
 * Delay, and a price each time that the way comes from what is free, or from one occupant, to what
 * another occupant holds. The price is beyond any delay, so the cheapest way crosses the fewest
 * stretches held by others, and is the quickest among those. An occupant that a way meets twice,
 * with something else between, counts twice here: this finds a good clearance, not a proven fewest.
 *
 * @param closed vertices that may not be entered at any price
 * @param used vertices that have an occupant to be freed; what is closed counts as not held
 * @param occupant number of the occupant at a held vertex
 */
public record ObstacleCost(BlockedVertices closed, BlockedVertices used, IntUnaryOperator occupant)
        implements CostModel {
    /** Price of one held stretch: one second in picoseconds, beyond the delay of any way. */
    public static final long PRICE = 1_000_000_000_000L;

    private static final int FREE = -1;

    /**
     * @param closed vertices that may not be entered at any price; kept, not to be changed
     * @param used vertices with an occupant; kept, not to be changed
     * @param occupant number of the occupant at a held vertex
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
    boolean isPriced(int from, int to) {
        return used.get(to) && occupant(to) != occupant(from);
    }

    private int occupant(int vertex) {
        return used.get(vertex) && !closed.get(vertex) ? occupant.applyAsInt(vertex) : FREE;
    }
}
