package padward.route;

import java.util.Optional;
import padward.fabric.Corner;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;

/**
 * A lower bound on the cost from a vertex to the goal. It must be consistent: for every edge from u
 * to v, {@code at(u) <= cost(u, v) + at(v)}, and zero at the goal; then A* settles every vertex
 * once and its first way to the goal is the cheapest (Hart, Nilsson, Raphael, IEEE Trans. Systems
 * Science and Cybernetics 4(2), 1968, 100-107).
 */
public interface LowerBound {
    /** The bound at a vertex, picoseconds; {@link CostModel#CLOSED} when no way leads on. */
    long at(int vertex);

    /**
     * The best bound known for delays to a goal: the table where the fabric allows one, else the
     * distance.
     */
    static LowerBound best(Fabric fabric, int goal, Corner corner) {
        BoundTable.Goals goals =
                fabric.kind(goal) == VertexKind.PAD ? BoundTable.Goals.PADS : BoundTable.Goals.PINS;
        Optional<BoundTable> table = BoundTable.of(fabric, corner, goals);
        if (table.isPresent() && table.get().leadsTo(fabric, goal)) {
            return table.get().towards(fabric, goal);
        }
        return DistanceRate.of(fabric, corner).towards(fabric, goal);
    }

    /** No bound: A* becomes Dijkstra's search. */
    LowerBound NONE = vertex -> 0;
}
