package padward.route;

import org.jgrapht.GraphPath;
import org.jgrapht.alg.interfaces.AStarAdmissibleHeuristic;
import org.jgrapht.alg.interfaces.ShortestPathAlgorithm;
import org.jgrapht.alg.shortestpath.AStarShortestPath;
import org.jgrapht.alg.shortestpath.DijkstraShortestPath;
import padward.fabric.Corner;
import padward.fabric.Fabric;

/**
 * The same search by JGraphT's algorithms: slower, independent of ours, and so its judge. Costs are
 * whole numbers below 2^53, which doubles add exactly; so the bound stays consistent when JGraphT's
 * A* adds it, as it must.
 */
public final class ReferenceSearch {
    /** What stands for no way on in a bound: beyond any cost, and still a whole number. */
    private static final double SHUT_OFF = 0x1p52;

    private ReferenceSearch() {}

    /** The cheapest way by Dijkstra's search, as {@link PathSearch#run} finds it. */
    public static SearchOutcome run(
            Fabric fabric, Starts starts, int goal, Corner corner, CostModel model) {
        FabricGraph graph = new FabricGraph(fabric, corner, model, starts);
        return run(new DijkstraShortestPath<>(graph), graph, goal);
    }

    /**
     * The cheapest way by A*.
     *
     * @param bound a consistent lower bound towards {@code goal}
     */
    public static SearchOutcome runGuided(
            Fabric fabric,
            Starts starts,
            int goal,
            Corner corner,
            CostModel model,
            LowerBound bound) {
        FabricGraph graph = new FabricGraph(fabric, corner, model, starts);
        AStarAdmissibleHeuristic<Integer> heuristic =
                (vertex, target) -> vertex == graph.origin() ? 0 : finite(bound.at(vertex));
        return run(new AStarShortestPath<>(graph, heuristic), graph, goal);
    }

    private static double finite(long bound) {
        return bound == CostModel.CLOSED ? SHUT_OFF : bound;
    }

    private static SearchOutcome run(
            ShortestPathAlgorithm<Integer, FabricEdge> algorithm, FabricGraph graph, int goal) {
        GraphPath<Integer, FabricEdge> path = algorithm.getPath(graph.origin(), goal);
        if (path == null) {
            return new SearchOutcome.Unreachable(0);
        }
        int[] vertices =
                path.getVertexList().stream().skip(1).mapToInt(Integer::intValue).toArray();
        return new SearchOutcome.Found(new Path(vertices), (long) path.getWeight(), 0);
    }
}
