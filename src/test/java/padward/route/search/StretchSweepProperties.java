package padward.route.search;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.BitSet;
import java.util.Random;
import java.util.stream.LongStream;
import org.jgrapht.alg.interfaces.ShortestPathAlgorithm.SingleSourcePaths;
import org.jgrapht.alg.shortestpath.DijkstraShortestPath;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.Progress;
import padward.fabric.Fabric;
import padward.fabric.RandomFabrics;
import padward.fabric.delay.Corner;
import padward.fabric.pattern.PatternFabric;
import padward.fabric.pattern.PatternFault;
import padward.route.cost.CostModel;
import padward.route.cost.ObstacleCost;
import padward.route.jgrapht.FabricEdge;
import padward.route.jgrapht.FabricGraph;
import padward.synth.FabricMaker;

/**
 * Sweeps over what occupants use, level by level, against JGraphT's Dijkstra over the same costs.
 */
class StretchSweepProperties {
    static LongStream seeds() {
        return LongStream.range(0, 1000);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void costsAreThoseOfDijkstra(long seed) throws PatternFault {
        check(PatternFabric.compile(RandomFabrics.pattern(seed)), new Random(seed));
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 4, 5, 6})
    void costsAreThoseOfDijkstraOnLargerOnes(int seed) throws PatternFault {
        check(PatternFabric.compile(FabricMaker.make(6_000, seed)), new Random(seed));
    }

    private static void check(Fabric fabric, Random random) {
        BitSet closed = new BitSet();
        BitSet used = new BitSet();
        int[] occupant = new int[fabric.vertexCount()];
        int percent = random.nextInt(100);
        int closedPercent = random.nextInt(20);
        int many = 1 + random.nextInt(40);
        for (int vertex = 0; vertex < occupant.length; vertex++) {
            // Neighbours mostly have the same one, so that there are stretches.
            boolean asBefore = vertex > 0 && random.nextInt(3) > 0;
            occupant[vertex] = asBefore ? occupant[vertex - 1] : random.nextInt(many);
            used.set(vertex, random.nextInt(100) < percent);
            closed.set(vertex, random.nextInt(100) < closedPercent);
        }
        ObstacleCost model = new ObstacleCost(closed, used, v -> occupant[v]);
        int[] vertices =
                random.ints(0, fabric.vertexCount())
                        .distinct()
                        .limit(1 + random.nextInt(3))
                        .toArray();
        SearchSources starts =
                new SearchSources(vertices, random.longs(vertices.length, 0, 300).toArray());
        Corner corner = Corner.values()[random.nextInt(2)];

        PathSearch search = new PathSearch(fabric);
        ObstacleCost found = model.forSweep(fabric.vertexCount(), Progress.NONE);
        OneToAll swept = search.sweep(starts, corner, found, Progress.NONE);

        FabricGraph graph = new FabricGraph(fabric, corner, model, starts);
        SingleSourcePaths<Integer, FabricEdge> expected =
                new DijkstraShortestPath<>(graph).getPaths(graph.origin());
        for (int vertex = 0; vertex < fabric.vertexCount(); vertex++) {
            double weight = expected.getWeight(vertex);
            long cost = Double.isInfinite(weight) ? CostModel.CLOSED : (long) weight;
            assertThat(swept.cost(vertex)).as(fabric.vertexName(vertex)).isEqualTo(cost);
            if (vertex % 97 == 0 && cost != CostModel.CLOSED) {
                assertThat(costOf(swept.pathTo(vertex), fabric, starts, corner, model))
                        .isEqualTo(cost);
            }
        }
    }

    private static long costOf(
            VertexPath path, Fabric fabric, SearchSources starts, Corner corner, CostModel model) {
        long sum = Long.MAX_VALUE;
        for (int i = 0; i < starts.size(); i++) {
            sum = starts.vertex(i) == path.first() ? starts.cost(i) : sum;
        }
        var edges = fabric.edgesOut();
        for (int i = 1; i < path.size(); i++) {
            int from = path.vertex(i - 1);
            edges.reset(from);
            long least = CostModel.CLOSED;
            while (edges.next()) {
                if (edges.other() == path.vertex(i)) {
                    long step = model.cost(from, path.vertex(i), edges.delayPs(corner));
                    least = Math.min(least, step);
                }
            }
            sum += least;
        }
        return sum;
    }
}
