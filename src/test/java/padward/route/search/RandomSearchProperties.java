package padward.route.search;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.BitSet;
import java.util.Random;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import org.jgrapht.GraphPath;
import org.jgrapht.alg.shortestpath.BellmanFordShortestPath;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import padward.base.Progress;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.RandomFabrics;
import padward.fabric.delay.Corner;
import padward.fabric.pattern.PatternFabric;
import padward.fabric.pattern.PatternFault;
import padward.route.bound.FabricIndex;
import padward.route.bound.LowerBound;
import padward.route.cost.CostModel;
import padward.route.cost.FreeOnlyCost;
import padward.route.cost.ObstacleCost;
import padward.route.jgrapht.FabricEdge;
import padward.route.jgrapht.FabricGraph;
import padward.route.jgrapht.ReferenceSearch;

/**
 * Our searches against JGraphT's Dijkstra, A* and Bellman-Ford on random fabrics: equal cost, legal
 * route. The seed is the test's argument.
 */
class RandomSearchProperties {
    static LongStream seeds() {
        return LongStream.range(0, 1000);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void ownSearchAgreesWithDijkstraAndBellmanFord(long seed) throws PatternFault {
        Random random = new Random(seed);
        Fabric pattern = PatternFabric.compile(RandomFabrics.pattern(seed));
        Fabric fabric = random.nextBoolean() ? pattern : RandomFabrics.explicit(pattern);
        Corner corner = Corner.values()[random.nextInt(2)];
        Pad pad = fabric.pads().get(random.nextInt(fabric.pads().size()));
        BitSet closed = new BitSet();
        int percent = random.nextInt(40);
        IntStream.range(0, fabric.vertexCount())
                .filter(v -> v != pad.vertex() && random.nextInt(100) < percent)
                .forEach(closed::set);
        CostModel model =
                random.nextBoolean()
                        ? new FreeOnlyCost(closed)
                        : new ObstacleCost(new BitSet(), closed, v -> v % 7);
        SearchSources starts = starts(fabric, random);

        PathSearch search = new PathSearch(fabric);
        LowerBound bound =
                FabricIndex.of(fabric)
                        .distanceRate(corner, Progress.NONE)
                        .towards(fabric, pad.vertex());
        SearchOutcome dijkstra =
                search.run(starts, pad.vertex(), corner, model, LowerBound.NONE, Progress.NONE);
        SearchOutcome guided =
                search.run(starts, pad.vertex(), corner, model, bound, Progress.NONE);
        SearchOutcome reference =
                ReferenceSearch.run(fabric, starts, pad.vertex(), corner, model, Progress.NONE);
        SearchOutcome referenceGuided =
                ReferenceSearch.runGuided(
                        fabric,
                        starts,
                        pad.vertex(),
                        corner,
                        model,
                        FabricIndex.of(fabric).bestBound(pad.vertex(), corner, Progress.NONE),
                        Progress.NONE);

        if (reference instanceof SearchOutcome.Found expected) {
            checkRoute(fabric, starts, corner, model, dijkstra, expected.cost(), pad.vertex());
            checkRoute(fabric, starts, corner, model, guided, expected.cost(), pad.vertex());
            checkRoute(
                    fabric, starts, corner, model, referenceGuided, expected.cost(), pad.vertex());
            assertThat(bellmanFord(fabric, starts, corner, model, pad.vertex()))
                    .isEqualTo(expected.cost());
        } else {
            assertThat(dijkstra).isInstanceOf(SearchOutcome.Unreachable.class);
            assertThat(guided).isInstanceOf(SearchOutcome.Unreachable.class);
            assertThat(referenceGuided).isInstanceOf(SearchOutcome.Unreachable.class);
        }
    }

    private static SearchSources starts(Fabric fabric, Random random) {
        int[] vertices =
                random.ints(0, fabric.vertexCount())
                        .distinct()
                        .limit(1 + random.nextInt(3))
                        .toArray();
        long[] costs = random.longs(vertices.length, 0, 300).toArray();
        return new SearchSources(vertices, costs);
    }

    private static long bellmanFord(
            Fabric fabric, SearchSources starts, Corner corner, CostModel model, int goal) {
        FabricGraph graph = new FabricGraph(fabric, corner, model, starts);
        GraphPath<Integer, FabricEdge> path =
                new BellmanFordShortestPath<>(graph).getPath(graph.origin(), goal);
        return (long) path.getWeight();
    }

    /**
     * The route begins at a source, follows edges, enters nothing closed, and costs what it says.
     */
    private static void checkRoute(
            Fabric fabric,
            SearchSources starts,
            Corner corner,
            CostModel model,
            SearchOutcome outcome,
            long expectedCost,
            int goal) {
        assertThat(outcome).isInstanceOf(SearchOutcome.Found.class);
        SearchOutcome.Found found = (SearchOutcome.Found) outcome;
        long sum =
                IntStream.range(0, starts.size())
                        .filter(i -> starts.vertex(i) == found.path().first())
                        .mapToLong(starts::cost)
                        .findFirst()
                        .orElseThrow();
        EdgeCursor edges = fabric.edgesOut();
        for (int i = 1; i < found.path().size(); i++) {
            edges.reset(found.path().vertex(i - 1));
            boolean joined = false;
            while (!joined && edges.next()) {
                joined = edges.other() == found.path().vertex(i);
            }
            assertThat(joined).isTrue();
            long cost =
                    model.cost(
                            found.path().vertex(i - 1),
                            found.path().vertex(i),
                            edges.delayPs(corner));
            assertThat(cost).isNotEqualTo(CostModel.CLOSED);
            sum += cost;
        }
        assertThat(found.path().last()).isEqualTo(goal);
        assertThat(sum).isEqualTo(found.cost());
        assertThat(found.cost()).isEqualTo(expectedCost);
    }
}
