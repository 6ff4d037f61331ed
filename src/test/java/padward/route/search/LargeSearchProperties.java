package padward.route.search;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.BitSet;
import java.util.List;
import java.util.Random;
import java.util.concurrent.CancellationException;
import org.jgrapht.alg.shortestpath.IntVertexDijkstraShortestPath;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import padward.base.Progress;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.delay.Corner;
import padward.fabric.pattern.PatternFabric;
import padward.fabric.pattern.PatternFault;
import padward.route.bound.FabricIndex;
import padward.route.bound.LowerBound;
import padward.route.bound.LowerBoundTable;
import padward.route.cost.BlockedVertices;
import padward.route.cost.CongestionCost;
import padward.route.cost.CostModel;
import padward.route.cost.FreeOnlyCost;
import padward.route.cost.ObstacleCost;
import padward.route.jgrapht.FabricGraph;
import padward.route.jgrapht.ReferenceSearch;
import padward.route.queue.BucketQueue;
import padward.synth.FabricMaker;

/** The fast searches against JGraphT's Dijkstra on made fabrics of many thousand wires. */
class LargeSearchProperties {
    private static final int WIRES = 100_000;
    private static final int SOURCES = 5;

    /** Further sources, from where wires have a price. */
    private static final int PRICED_SOURCES = 1;

    private static final int GOALS = 200;

    /** 5 sources × 200 pads: 1,000 questions at each corner, free as well as occupied. */
    @ParameterizedTest
    @EnumSource(Corner.class)
    void costsAgreeWithDijkstra(Corner corner) throws PatternFault {
        for (int percent : new int[] {0, 20}) {
            check(corner, percent);
        }
    }

    private static void check(Corner corner, int percent) throws PatternFault {
        Fabric fabric = PatternFabric.compile(FabricMaker.make(WIRES, 3));
        Random random = new Random(percent);
        BitSet closed = closed(fabric, percent, random);
        CostModel free = new FreeOnlyCost(closed);
        CostModel priced = priced(fabric, closed, random);
        PathSearch search = new PathSearch(fabric);
        PathSearch sweep = new PathSearch(fabric);
        for (int s = 0; s < SOURCES + PRICED_SOURCES; s++) {
            CostModel model = s < SOURCES ? free : priced;
            int source = random.nextInt(fabric.vertexCount());
            SearchSources starts = SearchSources.at(source);
            FabricGraph graph = new FabricGraph(fabric, corner, model, starts);
            var expected = new IntVertexDijkstraShortestPath<>(graph).getPaths(graph.origin());
            OneToAll all = sweep.sweep(starts, corner, model, Progress.NONE);
            for (int g = 0; g < GOALS; g++) {
                Pad pad = fabric.pads().get(random.nextInt(fabric.pads().size()));
                int goal = pad.vertex();
                double weight = expected.getWeight(goal);
                SearchOutcome found =
                        new PerimeterSearch(search)
                                .find(starts, goal, corner, model, Progress.NONE);
                if (Double.isInfinite(weight)) {
                    assertThat(found).isInstanceOf(SearchOutcome.Unreachable.class);
                    assertThat(all.cost(goal)).isEqualTo(CostModel.CLOSED);
                } else {
                    assertThat(((SearchOutcome.Found) found).cost()).isEqualTo((long) weight);
                    assertThat(all.cost(goal)).isEqualTo((long) weight);
                }
            }
        }
    }

    /** Prices as negotiation leaves them, beyond the longest delay here and there. */
    private static CostModel priced(Fabric fabric, BitSet closed, Random random) {
        int[] price = random.ints(fabric.vertexCount(), 0, 500).toArray();
        int[] times = random.ints(fabric.vertexCount(), 1, 4).toArray();
        return new CongestionCost(BlockedVertices.of(closed), price, times);
    }

    /** 50 pads from one source, at each corner, free as well as occupied. */
    @ParameterizedTest
    @EnumSource(Corner.class)
    void costsAgreeWithDijkstraOnAMillionWires(Corner corner) throws PatternFault {
        Fabric fabric = PatternFabric.compile(FabricMaker.make(1_000_000, 5));
        PathSearch search = new PathSearch(fabric);
        for (int percent : new int[] {0, 15}) {
            Random random = new Random(percent);
            BitSet closed = closed(fabric, percent, random);
            CostModel model = new FreeOnlyCost(closed);
            SearchSources starts = SearchSources.at(random.nextInt(fabric.vertexCount()));
            FabricGraph graph = new FabricGraph(fabric, corner, model, starts);
            var expected = new IntVertexDijkstraShortestPath<>(graph).getPaths(graph.origin());
            for (int g = 0; g < 50; g++) {
                Pad pad = fabric.pads().get(random.nextInt(fabric.pads().size()));
                double weight = expected.getWeight(pad.vertex());
                SearchOutcome found =
                        new PerimeterSearch(search)
                                .find(starts, pad.vertex(), corner, model, Progress.NONE);
                if (Double.isInfinite(weight)) {
                    assertThat(found).isInstanceOf(SearchOutcome.Unreachable.class);
                } else {
                    assertThat(((SearchOutcome.Found) found).cost()).isEqualTo((long) weight);
                }
            }
        }
    }

    private static BitSet closed(Fabric fabric, int percent, Random random) {
        BitSet closed = new BitSet();
        for (int v = 0; v < fabric.vertexCount(); v++) {
            if (random.nextInt(100) < percent) {
                closed.set(v);
            }
        }
        return closed;
    }

    @ParameterizedTest
    @EnumSource(Corner.class)
    void theTableIsConsistentAndZeroAtTheGoal(Corner corner) throws PatternFault {
        PatternFabric fabric = PatternFabric.compile(FabricMaker.make(5_000, 8));
        LowerBoundTable table =
                FabricIndex.of(fabric)
                        .table(corner, LowerBoundTable.Goals.PADS, Progress.NONE)
                        .orElseThrow();
        EdgeCursor edges = fabric.edgesOut();
        for (int p = 0; p < fabric.pads().size(); p += 7) {
            int goal = fabric.pads().get(p).vertex();
            LowerBound bound = table.towards(fabric, goal);
            assertThat(bound.at(goal)).isZero();
            for (int v = 0; v < fabric.vertexCount(); v++) {
                edges.reset(v);
                long own = bound.at(v);
                while (edges.next()) {
                    long other = bound.at(edges.other());
                    if (other != CostModel.CLOSED) {
                        assertThat(own).isLessThanOrEqualTo(other + edges.delayPs(corner));
                    }
                }
            }
        }
    }

    /** Cancelled searches stop, JGraphT's too, and do not claim that there is no route. */
    @Test
    void allSearchesStopOnRequest() throws PatternFault {
        Fabric fabric = PatternFabric.compile(FabricMaker.make(60_000, 3));
        SearchSources starts = SearchSources.at(fabric.findVertex("x5y5/run1_e[0]"));
        int goal = fabric.pads().get(fabric.pads().size() - 1).vertex();
        Progress over = Progress.NONE.within(0);
        BitSet used = new BitSet();
        used.set(0, fabric.vertexCount());
        CostModel free = new FreeOnlyCost(new BitSet());
        CostModel priced = new ObstacleCost(new BitSet(), used, v -> v);
        Corner slow = Corner.SLOW;
        LowerBound bound = FabricIndex.of(fabric).bestBound(goal, slow, Progress.NONE);
        PathSearch search = new PathSearch(fabric);
        assertThat(
                        List.of(
                                search.run(starts, goal, slow, free, LowerBound.NONE, over),
                                new PerimeterSearch(search).find(starts, goal, slow, priced, over),
                                ReferenceSearch.run(fabric, starts, goal, slow, free, over),
                                ReferenceSearch.runGuided(
                                        fabric, starts, goal, slow, free, bound, over)))
                .allMatch(outcome -> outcome instanceof SearchOutcome.Cancelled);
        assertThatThrownBy(() -> search.sweep(starts, slow, free, over))
                .isInstanceOf(CancellationException.class);
    }

    @Test
    void theQueueIsInOrderBeyondItsRingToo() {
        Random random = new Random(4);
        BucketQueue queue = new BucketQueue();
        int[] key = new int[20_000];
        queue.clear(0);
        int pushed = 0;
        int popped = 0;
        int last = 0;
        while (popped < key.length) {
            boolean push = pushed < key.length && (queue.isEmpty() || random.nextBoolean());
            if (push) {
                key[pushed] = last + random.nextInt(random.nextInt(50) == 0 ? 1_000_000 : 3_000);
                queue.push(pushed, key[pushed]);
                pushed++;
            } else {
                int item = queue.pop();
                assertThat(key[item]).isGreaterThanOrEqualTo(last).isEqualTo(queue.current());
                last = key[item];
                popped++;
            }
        }
        assertThat(queue.isEmpty()).isTrue();
    }
}
