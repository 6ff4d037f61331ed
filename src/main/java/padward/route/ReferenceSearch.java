package padward.route;

import org.jgrapht.GraphPath;
import org.jgrapht.alg.shortestpath.DijkstraShortestPath;
import padward.fabric.Corner;
import padward.fabric.Fabric;

/**
 * The same search by JGraphT's Dijkstra: slower, independent of ours, and so its judge. Costs are
 * whole numbers below 2^53, which doubles add exactly.
 */
public final class ReferenceSearch {
    private ReferenceSearch() {}

    /** The cheapest way, as {@link PathSearch#run} with the same arguments. */
    public static SearchOutcome run(
            Fabric fabric, Starts starts, int goal, Corner corner, CostModel model) {
        FabricGraph graph = new FabricGraph(fabric, corner, model, starts);
        GraphPath<Integer, FabricEdge> path =
                new DijkstraShortestPath<>(graph).getPath(graph.origin(), goal);
        if (path == null) {
            return new SearchOutcome.Unreachable(0);
        }
        int[] vertices =
                path.getVertexList().stream().skip(1).mapToInt(Integer::intValue).toArray();
        return new SearchOutcome.Found(new Path(vertices), (long) path.getWeight(), 0);
    }
}
