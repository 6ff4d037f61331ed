package padward.route.search;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import padward.base.Progress;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.RandomFabrics;
import padward.fabric.delay.Corner;
import padward.fabric.pattern.PatternFabric;
import padward.fabric.pattern.PatternFault;
import padward.route.bound.FabricIndex;
import padward.route.bound.LowerBound;
import padward.route.cost.BlockedVertices;
import padward.route.cost.CongestionCost;
import padward.route.cost.CostModel;
import padward.route.cost.CustomCost;
import padward.route.cost.FreeOnlyCost;
import padward.route.cost.ObstacleCost;
import padward.synth.FabricMaker;

/**
 * A search that is stopped and goes on does what one run does, to the last vertex: in every engine,
 * with and without a bound that gets sharper, for limits drawn.
 */
class StoppedSearchProperties {
    private static final Corner SLOW = Corner.SLOW;

    static LongStream seeds() {
        return LongStream.range(0, 300);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void severalRunsAreAsOne(long seed) throws PatternFault {
        Random random = new Random(seed);
        PatternFabric pattern =
                PatternFabric.compile(
                        seed % 4 == 0
                                ? FabricMaker.make(4_000, seed)
                                : RandomFabrics.pattern(seed));
        Fabric fabric = seed % 4 == 1 ? RandomFabrics.explicit(pattern) : pattern;
        Pad pad = fabric.pads().get(random.nextInt(fabric.pads().size()));
        BitSet closed = crowded(fabric, random);
        closed.clear(pad.vertex());
        CostModel model = model(fabric, closed, random);
        SearchSources starts =
                new SearchSources(
                        random.ints(0, fabric.vertexCount()).distinct().limit(2).toArray(),
                        new long[] {random.nextInt(300), random.nextInt(300)});
        LowerBound bound =
                random.nextInt(4) == 0
                        ? LowerBound.NONE
                        : FabricIndex.of(fabric).bestBound(pad.vertex(), SLOW, Progress.NONE);
        int sharpenAfter = 1 + random.nextInt(60);

        Events atOnce = new Events();
        SearchOutcome expected =
                new PathSearch(fabric, atOnce, sharpenAfter)
                        .run(starts, pad.vertex(), SLOW, model, bound, Progress.NONE);
        Events stopped = new Events();
        PathSearch search = new PathSearch(fabric, stopped, sharpenAfter);
        int limit = 1 + random.nextInt(40);
        SearchOutcome found =
                search.run(starts, pad.vertex(), SLOW, model, bound, limit, Progress.NONE);
        while (search.isAtLimit()) {
            assertThat(found).isEqualTo(new SearchOutcome.Cancelled(limit));
            limit += 1 + random.nextInt(limit);
            found = search.goOn(limit, Progress.NONE);
        }
        assertThat(found).isEqualTo(expected);
        assertThat(stopped.events).isEqualTo(atOnce.events);
    }

    @Test
    void whatIsOverDoesNotGoOn() throws PatternFault {
        Fabric fabric = PatternFabric.compile(FabricMaker.make(4_000, 1));
        PathSearch search = new PathSearch(fabric);
        assertThatThrownBy(() -> search.goOn(10, Progress.NONE))
                .isInstanceOf(IllegalStateException.class);
        int pad = fabric.pads().get(0).vertex();
        CostModel model = new FreeOnlyCost(new BitSet());
        search.run(SearchSources.at(pad), pad, SLOW, model, LowerBound.NONE, 1, Progress.NONE);
        assertThatThrownBy(() -> search.goOn(10, Progress.NONE))
                .isInstanceOf(IllegalStateException.class);
    }

    /** The search backwards too: what it has seen is the same whether it stopped or not. */
    @ParameterizedTest
    @MethodSource("seeds")
    void aPerimeterThatGrowsIsAsOneMadeAtOnce(long seed) throws PatternFault {
        Random random = new Random(seed);
        Fabric fabric = PatternFabric.compile(RandomFabrics.pattern(seed));
        int goal = fabric.pads().get(random.nextInt(fabric.pads().size())).vertex();
        BitSet used = crowded(fabric, random);
        CostModel model = new ObstacleCost(new BitSet(), used, v -> v % 7);
        int most = random.nextInt(300);
        PerimeterBound atOnce = PerimeterBound.before(goal, LowerBound.NONE);
        atOnce.grow(fabric, model, most, Progress.NONE);
        PerimeterBound grown = PerimeterBound.before(goal, LowerBound.NONE);
        for (int seen = 0; seen < most; seen += 1 + random.nextInt(50)) {
            grown.grow(fabric, model, seen, Progress.NONE);
        }
        grown.grow(fabric, model, most, Progress.NONE);
        for (int v = 0; v < fabric.vertexCount(); v++) {
            assertThat(grown.levelAt(v)).isEqualTo(atOnce.levelAt(v));
            assertThat(grown.excludes(SearchSources.at(v)))
                    .isEqualTo(atOnce.excludes(SearchSources.at(v)));
        }
    }

    private static BitSet crowded(Fabric fabric, Random random) {
        int[] percent = random.ints(fabric.tileCount(), 0, 80).toArray();
        BitSet closed = new BitSet();
        for (int v = 0; v < fabric.vertexCount(); v++) {
            if (random.nextInt(100) < percent[fabric.tile(v)]) {
                closed.set(v);
            }
        }
        return closed;
    }

    private static CostModel model(Fabric fabric, BitSet closed, Random random) {
        FreeOnlyCost free = new FreeOnlyCost(closed);
        return switch (random.nextInt(4)) {
            case 0 -> free;
            case 1 -> new ObstacleCost(new BitSet(), closed, v -> v % 7);
            case 2 ->
                    new CongestionCost(
                            BlockedVertices.of(closed),
                            random.ints(fabric.vertexCount(), 0, 200).toArray(),
                            random.ints(fabric.vertexCount(), 1, 3).toArray());
            default -> (CustomCost) free::cost;
        };
    }

    /** What a listener hears, but for where a run ends. */
    private static final class Events implements SearchListener {
        final List<List<Long>> events = new ArrayList<>();

        @Override
        public void begun(SearchSources sources, int goal, LowerBound bound) {
            events.add(List.of((long) goal));
        }

        @Override
        public void settled(int vertex, long cost) {
            events.add(List.of((long) vertex, cost));
        }

        @Override
        public void reached(int vertex, int from, long cost, long ahead) {
            events.add(List.of((long) vertex, (long) from, cost, ahead));
        }

        @Override
        public void refused(int vertex, int from) {
            events.add(List.of((long) vertex, (long) from, 0L));
        }

        @Override
        public void ended(SearchOutcome outcome) {}
    }
}
