package padward.route.cost;

/**
 * A cost model in numbers of 31 bits, as the fast searches use them. A used stretch counts {@link
 * #STRETCH} instead of {@link ObstacleCost#PRICE}, which is still beyond the delay of any route
 * across a chip. When costs would pass {@link #LARGEST}, the fast search stops, and the general
 * search answers the question.
 */
public abstract class SmallCost {
    /** What one used stretch counts: 2^22 picoseconds, four microseconds. */
    public static final int STRETCH = 1 << 22;

    /** Largest cost that the fast searches handle. */
    public static final int LARGEST = 1 << 30;

    /** As many stretches as fit. */
    public static final int MOST_STRETCHES = LARGEST / STRETCH;

    /** The step may not be taken. */
    public static final int CLOSED = Integer.MAX_VALUE;

    /** In {@link #occupants}: nothing has to be paid for there. */
    public static final int NO_OCCUPANT = -1;

    private static final int[] NO_PRICES = {};
    private static final int[] NOT_KNOWN = {};

    /** What is added to delay. */
    enum Kind {
        NOTHING,
        STRETCHES,
        CONGESTION
    }

    private final BlockedVertices closed;
    private final boolean delayOnly;
    private final boolean countsStretches;

    SmallCost(BlockedVertices closed, Kind kind) {
        this.closed = closed;
        this.delayOnly = kind == Kind.NOTHING;
        this.countsStretches = kind == Kind.STRETCHES;
    }

    /** Delay alone, over vertices that are not closed. */
    static SmallCost ofDelay(BlockedVertices closed) {
        return new SmallCost(closed, Kind.NOTHING) {
            @Override
            int pricedStep(int from, int to, int delayPs) {
                return delayPs;
            }
        };
    }

    /** Vertices that may not be entered. */
    public final BlockedVertices closed() {
        return closed;
    }

    /** Whether a step into a vertex that is not closed costs its delay and nothing more. */
    public final boolean isDelayOnly() {
        return delayOnly;
    }

    /** Whether used stretches are counted, in units of {@link #STRETCH}. */
    public final boolean countsStretches() {
        return countsStretches;
    }

    /** The cost of a step, {@link #CLOSED} when it may not be taken. */
    public final int step(int from, int to, int delayPs) {
        return closed.get(to) ? CLOSED : openStep(from, to, delayPs);
    }

    /** The cost of a step into a vertex that is not closed. */
    public final int openStep(int from, int to, int delayPs) {
        // Asked here and not by one more subclass: a call with two targets is still inlined.
        return delayOnly ? delayPs : pricedStep(from, to, delayPs);
    }

    /** The cost of a step into a vertex that is not closed, where a model adds to the delay. */
    abstract int pricedStep(int from, int to, int delayPs);

    /** Whether a vertex has an occupant whose stretch has to be paid for. */
    public boolean isUsed(int vertex) {
        return false;
    }

    /**
     * Where stretches are counted, the occupant of each vertex, {@link #NO_OCCUPANT} for none: a
     * step to an occupant is priced where it comes from another one, or from none. Empty where they
     * are not known beforehand. The model's own array, not to be changed.
     */
    public int[] occupants() {
        return NOT_KNOWN;
    }

    /**
     * h of {@link CongestionCost} for each vertex, in picoseconds; empty for models without. The
     * model's own array, not to be changed.
     */
    public int[] historyPs() {
        return NO_PRICES;
    }

    /**
     * p of {@link CongestionCost} for each vertex; empty for models without. The model's own array,
     * not to be changed.
     */
    public int[] presentFactor() {
        return NO_PRICES;
    }

    /** A cost in the model's own numbers. */
    public final long wide(int cost) {
        return countsStretches ? cost / STRETCH * ObstacleCost.PRICE + cost % STRETCH : cost;
    }

    /** Whether a cost to begin with leaves room to distinguish stretches from delay. */
    public final boolean fits(long delayPs) {
        return delayPs < (countsStretches ? STRETCH : LARGEST);
    }
}
