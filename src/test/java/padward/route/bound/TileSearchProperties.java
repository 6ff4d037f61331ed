package padward.route.bound;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import org.jgrapht.alg.shortestpath.DijkstraShortestPath;
import org.jgrapht.graph.EdgeReversedGraph;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import padward.base.Progress;
import padward.fabric.EdgeCursor;
import padward.fabric.RandomFabrics;
import padward.fabric.delay.Corner;
import padward.fabric.pattern.PatternFabric;
import padward.fabric.pattern.PatternFault;
import padward.fabric.pattern.PatternSpec;
import padward.route.cost.BlockedVertices;
import padward.route.cost.CongestionCost;
import padward.route.cost.CostModel;
import padward.route.cost.FreeOnlyCost;
import padward.route.cost.SmallCostModel;
import padward.route.jgrapht.FabricEdge;
import padward.route.jgrapht.FabricGraph;
import padward.route.search.SearchSources;
import padward.synth.FabricMaker;

/**
 * The bound under the present occupancy is never above the true rest of the cost, which JGraphT
 * finds on the reversed graph, and it is consistent; from the first node to the last.
 */
class TileSearchProperties {
    static LongStream seeds() {
        return LongStream.range(0, 100);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void theBoundIsConsistentAndNotAboveTheTruth(long seed) throws PatternFault {
        PatternSpec spec =
                seed % 3 == 0
                        ? FabricMaker.make(1500 + (int) seed * 10, seed)
                        : RandomFabrics.pattern(seed);
        check(PatternFabric.compile(spec), new Random(seed));
        PatternSpec gaps = withEmptyTiles(spec, seed);
        check(PatternFabric.compile(gaps), new Random(seed));
    }

    /** The same without vertices in some tiles: inside, and in a corner, the last one or not. */
    private static PatternSpec withEmptyTiles(PatternSpec spec, long seed) {
        List<PatternSpec.TileType> types = new ArrayList<>(spec.tileTypes());
        types.add(new PatternSpec.TileType("void", List.of(), List.of(), List.of(), List.of()));
        List<PatternSpec.Area> areas = new ArrayList<>(spec.areas());
        int right = spec.columns() - 1;
        int top = spec.rows() - 1;
        int corner = (int) (seed % 4);
        areas.add(one(corner % 2 * right, corner / 2 * top));
        areas.add(one(right / 2, top / 2));
        return new PatternSpec(
                spec.info(),
                spec.columns(),
                spec.rows(),
                spec.wires(),
                types,
                areas,
                spec.padOverrides(),
                spec.unusable());
    }

    private static PatternSpec.Area one(int column, int row) {
        return new PatternSpec.Area("void", column, column, row, row, 1);
    }

    /** What wires with several ends would need is left out: of drawn fabrics, most have some. */
    @Test
    void fabricsWhoseWiresAreLeftInOneTileAreKnown() throws PatternFault {
        int known = 0;
        for (int seed = 0; seed < 100; seed++) {
            PatternFabric fabric = PatternFabric.compile(RandomFabrics.pattern(seed));
            known += TileMoves.of(fabric, Corner.SLOW, Progress.NONE).isPresent() ? 1 : 0;
        }
        assertThat(known).isGreaterThan(20);
    }

    private static void check(PatternFabric fabric, Random random) {
        Corner corner = Corner.values()[random.nextInt(2)];
        Optional<TileMoves> moves = TileMoves.of(fabric, corner, Progress.NONE);
        if (moves.isEmpty()) {
            return;
        }
        TileSearch search = new TileSearch(fabric);
        BitSet shared = crowded(fabric, random);
        for (int question = 0; question < 3; question++) {
            // The second question has the first one's shared set, with changes.
            BlockedVertices closed = BlockedVertices.of(shared);
            if (question == 1) {
                BlockedVertices before = closed;
                for (int i = 0; i < 20; i++) {
                    int v = random.nextInt(fabric.vertexCount());
                    closed = flipped(closed, v);
                }
                assertThat(closed.base()).isSameAs(before.base());
            } else if (question == 2) {
                shared = crowded(fabric, random);
                closed = BlockedVertices.of(shared);
            }
            SmallCostModel model = model(fabric, closed, random);
            int goal = fabric.pads().get(random.nextInt(fabric.pads().size())).vertex();
            if (closed.get(goal)) {
                continue;
            }
            int[] sources =
                    random.ints(0, fabric.vertexCount())
                            .distinct()
                            .limit(1 + random.nextInt(3))
                            .toArray();
            search.begin(moves.get(), corner, model.small(), sources, goal);
            EdgeReversedGraph<Integer, FabricEdge> back =
                    new EdgeReversedGraph<>(
                            new FabricGraph(fabric, corner, model, SearchSources.at(goal)));
            var rest = new DijkstraShortestPath<>(back).getPaths(goal);
            for (int times = 1; times < 1 << 14; times *= 2) {
                for (int v = 0; v < fabric.vertexCount(); v++) {
                    if (!closed.get(v)) {
                        double truth = rest.getWeight(v);
                        assertThat((double) at(search, fabric, v)).isLessThanOrEqualTo(truth);
                    }
                }
                checkConsistent(fabric, search, model, closed, corner);
                goOn(search, fabric, times, random);
            }
        }
    }

    /** By some nodes: until it comes to the net, or for what is asked of some vertices. */
    private static void goOn(TileSearch search, PatternFabric fabric, int times, Random random) {
        boolean hasMet = random.nextInt(4) == 0;
        for (int i = 0; i < times; i++) {
            if (!hasMet) {
                hasMet = search.meetsNet(Progress.NONE);
                continue;
            }
            int v = random.nextInt(fabric.vertexCount());
            int tile = fabric.tile(v);
            int row = fabric.maskedEdges().row(tile, v);
            search.sharpened(v, tile, row, random.nextInt(1 << 14), Progress.NONE);
        }
    }

    private static BlockedVertices flipped(BlockedVertices closed, int vertex) {
        var one = it.unimi.dsi.fastutil.ints.IntSets.singleton(vertex);
        var none = it.unimi.dsi.fastutil.ints.IntSets.EMPTY_SET;
        return closed.get(vertex) ? closed.with(none, one) : closed.with(one, none);
    }

    private static int at(TileSearch search, PatternFabric fabric, int vertex) {
        int tile = fabric.tile(vertex);
        return search.at(vertex, tile, fabric.maskedEdges().row(tile, vertex));
    }

    private static void checkConsistent(
            PatternFabric fabric,
            TileSearch search,
            CostModel model,
            BlockedVertices closed,
            Corner corner) {
        EdgeCursor edges = fabric.edgesOut();
        for (int v = 0; v < fabric.vertexCount(); v++) {
            if (closed.get(v)) {
                continue;
            }
            int own = at(search, fabric, v);
            edges.reset(v);
            while (edges.next()) {
                int other = edges.other();
                if (!closed.get(other)) {
                    long ahead = at(search, fabric, other);
                    long cost = model.cost(v, other, edges.delayPs(corner));
                    assertThat((long) own).isLessThanOrEqualTo(ahead + cost);
                }
            }
        }
    }

    /** Hot spots over some of the tiles. */
    private static BitSet crowded(PatternFabric fabric, Random random) {
        BitSet closed = new BitSet();
        int[] percent =
                IntStream.range(0, fabric.tileCount())
                        .map(tile -> random.nextInt(3) == 0 ? 75 : random.nextInt(30))
                        .toArray();
        for (int v = 0; v < fabric.vertexCount(); v++) {
            if (random.nextInt(100) < percent[fabric.tile(v)]) {
                closed.set(v);
            }
        }
        fabric.pads().forEach(pad -> closed.clear(pad.vertex()));
        return closed;
    }

    private static SmallCostModel model(
            PatternFabric fabric, BlockedVertices closed, Random random) {
        if (random.nextBoolean()) {
            return new FreeOnlyCost(closed);
        }
        int[] price = random.ints(fabric.vertexCount(), 0, 200).toArray();
        int[] times = random.ints(fabric.vertexCount(), 1, 3).toArray();
        return new CongestionCost(closed, price, times);
    }
}
