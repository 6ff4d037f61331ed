package padward.route.cost;

import java.util.BitSet;
import java.util.function.IntUnaryOperator;
import padward.base.Progress;

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

    private static final int FREE = SmallCost.NO_OCCUPANT;

    private static final int VERTICES_BETWEEN_CHECKS = 1 << 14;
    private static final int[] NOT_FOUND = {};

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

    /**
     * The same costs, with the occupant of each vertex found beforehand: pays for a sweep, which
     * asks for most of them several times. O(vertices); 4 bytes a vertex.
     *
     * @param vertices the fabric's number of them
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    public ObstacleCost forSweep(int vertices, Progress progress) {
        int[] occupants = new int[vertices];
        for (int vertex = 0; vertex < vertices; vertex++) {
            if (vertex % VERTICES_BETWEEN_CHECKS == 0) {
                progress.check();
            }
            boolean any = used.get(vertex) && !closed.get(vertex);
            occupants[vertex] = any ? occupant.applyAsInt(vertex) : FREE;
        }
        return new ObstacleCost(closed, used, new Found(occupants));
    }

    /** Occupants by vertex, {@link #FREE} at those that are closed or have none. */
    private record Found(int[] occupants) implements IntUnaryOperator {
        @Override
        public int applyAsInt(int vertex) {
            return occupants[vertex];
        }
    }

    /** {@link SmallCost#STRETCH} in place of {@link #PRICE}. */
    private static final class Small extends SmallCost {
        private final ObstacleCost model;

        /** Occupants by vertex; empty where they were not found beforehand. */
        private final int[] occupants;

        Small(ObstacleCost model) {
            super(model.closed, Kind.STRETCHES);
            this.model = model;
            this.occupants = model.occupant instanceof Found found ? found.occupants : NOT_FOUND;
        }

        @Override
        int pricedStep(int from, int to, int delayPs) {
            return isPriced(from, to) ? delayPs + STRETCH : delayPs;
        }

        private boolean isPriced(int from, int to) {
            if (occupants.length == 0) {
                return model.isPriced(from, to);
            }
            // What is closed is not entered, so the occupant alone says whether it is used.
            int there = occupants[to];
            return there != FREE && there != occupants[from];
        }

        @Override
        public int[] occupants() {
            return occupants;
        }

        @Override
        public boolean isUsed(int vertex) {
            return model.used.get(vertex);
        }
    }
}
