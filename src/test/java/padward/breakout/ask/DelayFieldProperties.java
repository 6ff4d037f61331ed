package padward.breakout.ask;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.stream.LongStream;
import org.jgrapht.alg.shortestpath.DijkstraShortestPath;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import padward.base.Progress;
import padward.design.Design;
import padward.design.Net;
import padward.example.RandomDesigns;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.RandomFabrics;
import padward.fabric.Tap;
import padward.fabric.VertexKind;
import padward.fabric.delay.Corner;
import padward.fabric.pattern.PatternFabric;
import padward.fabric.pattern.PatternFault;
import padward.route.jgrapht.FabricGraph;
import padward.route.search.SearchSources;
import padward.unblock.release.QuestionContext;

/** How far a net gets, against JGraphT's Dijkstra and against its definition. */
class DelayFieldProperties {
    static LongStream seeds() {
        return LongStream.range(0, 20);
    }

    private static Design random(long seed) throws PatternFault {
        Fabric fabric = PatternFabric.compile(RandomFabrics.pattern(seed));
        return RandomDesigns.on(fabric, 12, new Random(seed));
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void delaysAreThoseOfDijkstra(long seed) throws PatternFault {
        Design design = random(seed);
        Fabric fabric = design.fabric();
        for (Net net : design.nets().stream().limit(3).toList()) {
            Corner corner = seed % 2 == 0 ? Corner.SLOW : Corner.FAST;
            DelayField field = DelayField.of(design, net, corner, Progress.NONE);
            QuestionContext situation = new QuestionContext(design, net, Optional.empty());
            SearchSources starts = SearchSources.along(fabric, net.route(), corner);
            FabricGraph graph = new FabricGraph(fabric, corner, situation.overFree(), starts);
            var expected = new DijkstraShortestPath<>(graph).getPaths(graph.origin());
            int[] arrivals = new int[fabric.tileCount()];
            Arrays.fill(arrivals, DelayField.NEVER);
            for (int v = 0; v < fabric.vertexCount(); v++) {
                double weight = expected.getWeight(v);
                int delay = Double.isInfinite(weight) ? DelayField.NEVER : (int) weight;
                assertThat(field.atPs(v)).as(fabric.vertexName(v)).isEqualTo(delay);
                if (fabric.kind(v) == VertexKind.WIRE) {
                    List<Integer> left =
                            fabric.listsTaps(v)
                                    ? fabric.taps(v).stream().map(Tap::tile).toList()
                                    : List.of(fabric.headTile(v));
                    left.forEach(t -> arrivals[t] = Math.min(arrivals[t], delay));
                }
            }
            for (int tile = 0; tile < arrivals.length; tile++) {
                assertThat(field.arrivalPs(tile)).isEqualTo(arrivals[tile]);
            }
        }
    }

    /** All that can be reached later or not at all is next to the frontier, never past it. */
    @ParameterizedTest
    @MethodSource("seeds")
    void theFrontierPartsWhatIsReachedFromWhatIsNot(long seed) throws PatternFault {
        Design design = random(seed);
        Fabric fabric = design.fabric();
        Net net = design.nets().get(0);
        DelayField field = DelayField.of(design, net, Corner.SLOW, Progress.NONE);
        for (int within : new int[] {0, field.latestPs() / 2, DelayField.NEVER}) {
            BitSet frontier = field.frontier(within, Progress.NONE);
            EdgeCursor edges = fabric.edgesOut();
            for (int v = 0; v < fabric.vertexCount(); v++) {
                boolean inside = isInside(field, v, within);
                boolean touches = false;
                edges.reset(v);
                while (edges.next()) {
                    touches |= !isInside(field, edges.other(), within);
                }
                assertThat(frontier.get(v)).isEqualTo(inside && touches);
            }
        }
    }

    private static boolean isInside(DelayField field, int vertex, int within) {
        return field.atPs(vertex) != DelayField.NEVER && field.atPs(vertex) <= within;
    }
}
