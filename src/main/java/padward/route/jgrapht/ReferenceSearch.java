package padward.route.jgrapht;

import java.util.Set;
import java.util.concurrent.CancellationException;
import org.jgrapht.GraphPath;
import org.jgrapht.alg.interfaces.AStarAdmissibleHeuristic;
import org.jgrapht.alg.interfaces.ShortestPathAlgorithm;
import org.jgrapht.alg.shortestpath.AStarShortestPath;
import org.jgrapht.alg.shortestpath.DijkstraShortestPath;
import padward.base.Progress;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.route.bound.FabricIndex;
import padward.route.bound.LowerBound;
import padward.route.cost.CostModel;
import padward.route.search.RouteFinder;
import padward.route.search.SearchOutcome;
import padward.route.search.SearchSources;
import padward.route.search.VertexPath;

/**
 * The same search by JGraphT's algorithms: slower, independent of ours, and so the oracle in tests.
 * Costs are whole numbers below 2^53, which doubles add exactly; so the bound stays consistent when
 * JGraphT's A* adds it, as it must.
 */
public final class ReferenceSearch {
    /** Stands for "no route leads on" in a bound: beyond any cost, and still a whole number. */
    private static final double NO_ROUTE = 0x1p52;

    private ReferenceSearch() {}

    /** JGraphT's Dijkstra on a fabric. */
    public static RouteFinder dijkstra(Fabric fabric) {
        return (sources, goal, corner, model, progress) ->
                run(fabric, sources, goal, corner, model, progress);
    }

    /** JGraphT's A* on a fabric, with the best lower bound that the project knows. */
    public static RouteFinder aStar(Fabric fabric) {
        return (sources, goal, corner, model, progress) -> {
            LowerBound bound;
            try {
                bound = FabricIndex.of(fabric).bestBound(goal, corner, progress);
            } catch (CancellationException stopped) {
                return new SearchOutcome.Cancelled(0);
            }
            return runGuided(fabric, sources, goal, corner, model, bound, progress);
        };
    }

    /**
     * The cheapest route by Dijkstra's search, as {@link padward.route.search.PathSearch#run} finds
     * it.
     */
    public static SearchOutcome run(
            Fabric fabric,
            SearchSources starts,
            int goal,
            Corner corner,
            CostModel model,
            Progress progress) {
        StoppableGraph graph = new StoppableGraph(fabric, corner, model, starts, progress);
        return run(new DijkstraShortestPath<>(graph), graph, goal);
    }

    /**
     * The cheapest route by A*.
     *
     * @param bound a consistent lower bound towards {@code goal}
     */
    public static SearchOutcome runGuided(
            Fabric fabric,
            SearchSources starts,
            int goal,
            Corner corner,
            CostModel model,
            LowerBound bound,
            Progress progress) {
        StoppableGraph graph = new StoppableGraph(fabric, corner, model, starts, progress);
        AStarAdmissibleHeuristic<Integer> heuristic =
                (vertex, target) -> vertex == graph.origin() ? 0 : finite(bound.at(vertex));
        return run(new AStarShortestPath<>(graph, heuristic), graph, goal);
    }

    private static double finite(long bound) {
        return bound == CostModel.CLOSED ? NO_ROUTE : bound;
    }

    private static SearchOutcome run(
            ShortestPathAlgorithm<Integer, FabricEdge> algorithm, StoppableGraph graph, int goal) {
        GraphPath<Integer, FabricEdge> path;
        try {
            path = algorithm.getPath(graph.origin(), goal);
        } catch (Stopped stopped) {
            return new SearchOutcome.Cancelled(graph.left);
        }
        if (path == null) {
            return new SearchOutcome.Unreachable(graph.left);
        }
        int[] vertices =
                path.getVertexList().stream().skip(1).mapToInt(Integer::intValue).toArray();
        return new SearchOutcome.Found(
                new VertexPath(vertices), (long) path.getWeight(), graph.left);
    }

    /** Ends an algorithm that cannot be stopped otherwise. */
    private static final class Stopped extends RuntimeException {
        private static final long serialVersionUID = 1;

        Stopped() {
            super("stopped on request", null, false, false);
        }
    }

    /** The graph, which asks now and then, when it is asked for edges, whether to stop. */
    private static final class StoppableGraph extends FabricGraph {
        private static final int BETWEEN_CHECKS = 128;

        private final Progress progress;

        /** How many vertices were left by their edges: those that are settled. */
        private int left;

        StoppableGraph(
                Fabric fabric,
                Corner corner,
                CostModel model,
                SearchSources starts,
                Progress progress) {
            super(fabric, corner, model, starts);
            this.progress = progress;
        }

        @Override
        public Set<FabricEdge> outgoingEdgesOf(Integer vertex) {
            if (left++ % BETWEEN_CHECKS == 0 && progress.cancelled()) {
                throw new Stopped();
            }
            return super.outgoingEdgesOf(vertex);
        }
    }
}
