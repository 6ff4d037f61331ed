package padward.route.flow;

/**
 * A pad where a route may end.
 *
 * @param vertex the pad's vertex
 * @param cost what ending there costs, in picoseconds or as a price; not negative
 */
public record FlowGoal(int vertex, int cost) {
    /** Checks the cost. */
    public FlowGoal {
        if (cost < 0) {
            throw new IllegalArgumentException("a goal's cost is negative");
        }
    }
}
