package padward.route.bound;

/**
 * A lower bound on the cost from a vertex to the goal. It must be consistent: for every edge from u
 * to v, {@code at(u) <= cost(u, v) + at(v)}, and zero at the goal; then A* settles every vertex
 * once and its first route to the goal is the cheapest (Hart, Nilsson, Raphael, IEEE Trans. Systems
 * Science and Cybernetics 4(2), 1968, 100-107).
 */
public interface LowerBound {
    /**
     * The bound at a vertex, picoseconds; {@link padward.route.cost.CostModel#CLOSED} when no route
     * leads on.
     */
    long at(int vertex);

    /** No bound: A* becomes Dijkstra's search. */
    LowerBound NONE = vertex -> 0;
}
