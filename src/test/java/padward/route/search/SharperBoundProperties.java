package padward.route.search;

import static org.assertj.core.api.Assertions.assertThat;

import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import java.util.BitSet;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import padward.base.Progress;
import padward.fabric.Pad;
import padward.fabric.RandomFabrics;
import padward.fabric.delay.Corner;
import padward.fabric.pattern.PatternFabric;
import padward.fabric.pattern.PatternFault;
import padward.fabric.pattern.PatternSpec;
import padward.route.bound.FabricIndex;
import padward.route.bound.LowerBound;
import padward.route.cost.BlockedVertices;
import padward.route.cost.CongestionCost;
import padward.route.cost.CostModel;
import padward.route.cost.FreeOnlyCost;
import padward.route.jgrapht.ReferenceSearch;
import padward.synth.FabricMaker;

/**
 * A search whose bound gets sharper after a few vertices answers as JGraphT's does, also when
 * questions free and close what they have in common.
 */
class SharperBoundProperties {
    private static final Corner SLOW = Corner.SLOW;

    static LongStream seeds() {
        return LongStream.range(0, 300);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void costsAgreeWithDijkstra(long seed) throws PatternFault {
        Random random = new Random(seed);
        PatternSpec spec =
                seed % 4 == 0 ? FabricMaker.make(4_000, seed) : RandomFabrics.pattern(seed);
        PatternFabric fabric = PatternFabric.compile(spec);
        PathSearch search = new PathSearch(fabric, SearchListener.NONE, 1 + random.nextInt(40));
        BlockedVertices shared = BlockedVertices.of(crowded(fabric, random));
        for (int question = 0; question < 6; question++) {
            if (question == 4) {
                shared = BlockedVertices.of(crowded(fabric, random));
            }
            Pad pad = fabric.pads().get(random.nextInt(fabric.pads().size()));
            BlockedVertices closed =
                    shared.with(some(fabric, random), some(fabric, random))
                            .with(
                                    new IntOpenHashSet(),
                                    new IntOpenHashSet(new int[] {pad.vertex()}));
            CostModel model = model(fabric, closed, random);
            SearchSources starts = starts(fabric, random);
            LowerBound bound = FabricIndex.of(fabric).bestBound(pad.vertex(), SLOW, Progress.NONE);
            SearchOutcome found =
                    search.run(starts, pad.vertex(), SLOW, model, bound, Progress.NONE);
            SearchOutcome expected =
                    ReferenceSearch.run(fabric, starts, pad.vertex(), SLOW, model, Progress.NONE);
            if (expected instanceof SearchOutcome.Found right) {
                assertThat(found)
                        .isInstanceOfSatisfying(
                                SearchOutcome.Found.class,
                                own -> assertThat(own.cost()).isEqualTo(right.cost()));
            } else {
                assertThat(found).isInstanceOf(SearchOutcome.Unreachable.class);
            }
        }
    }

    /** Behind a wall with one gap it settles far less than by what is known of the empty fabric. */
    @Test
    void aSharperBoundSettlesLess() throws PatternFault {
        PatternFabric fabric = PatternFabric.compile(FabricMaker.make(60_000, 3));
        BitSet closed = new BitSet();
        int middle = fabric.columns() / 2;
        for (int v = 0; v < fabric.vertexCount(); v++) {
            int column = fabric.column(fabric.tile(v));
            boolean wall = Math.abs(column - middle) < 8 && fabric.row(fabric.tile(v)) > 3;
            if (wall) {
                closed.set(v);
            }
        }
        CostModel model = new FreeOnlyCost(closed);
        Pad pad =
                fabric.pads().stream()
                        .filter(p -> fabric.column(p.tile()) == fabric.columns() - 1)
                        .skip(fabric.rows())
                        .findFirst()
                        .orElseThrow();
        SearchSources starts =
                SearchSources.at(fabric.findVertex("x3y" + fabric.row(pad.tile()) + "/run1_e[0]"));
        LowerBound bound = FabricIndex.of(fabric).bestBound(pad.vertex(), SLOW, Progress.NONE);
        SearchOutcome.Found plain = found(fabric, IntSearch.NEVER, starts, pad, model, bound);
        SearchOutcome.Found sharper = found(fabric, 100, starts, pad, model, bound);
        assertThat(sharper.cost()).isEqualTo(plain.cost());
        assertThat(sharper.settled()).isLessThan(plain.settled() / 3);
    }

    private static SearchOutcome.Found found(
            PatternFabric fabric,
            int after,
            SearchSources starts,
            Pad pad,
            CostModel model,
            LowerBound bound) {
        return (SearchOutcome.Found)
                new PathSearch(fabric, SearchListener.NONE, after)
                        .run(starts, pad.vertex(), SLOW, model, bound, Progress.NONE);
    }

    private static SearchSources starts(PatternFabric fabric, Random random) {
        int[] vertices =
                random.ints(0, fabric.vertexCount())
                        .distinct()
                        .limit(1 + random.nextInt(3))
                        .toArray();
        return new SearchSources(vertices, random.longs(vertices.length, 0, 300).toArray());
    }

    private static IntOpenHashSet some(PatternFabric fabric, Random random) {
        IntOpenHashSet result = new IntOpenHashSet();
        for (int i = random.nextInt(30); i > 0; i--) {
            result.add(random.nextInt(fabric.vertexCount()));
        }
        return result;
    }

    private static BitSet crowded(PatternFabric fabric, Random random) {
        int[] percent = random.ints(fabric.tileCount(), 0, 90).toArray();
        BitSet closed = new BitSet();
        for (int v = 0; v < fabric.vertexCount(); v++) {
            if (random.nextInt(100) < percent[fabric.tile(v)]) {
                closed.set(v);
            }
        }
        return closed;
    }

    private static CostModel model(PatternFabric fabric, BlockedVertices closed, Random random) {
        if (random.nextBoolean()) {
            return new FreeOnlyCost(closed);
        }
        int[] price = random.ints(fabric.vertexCount(), 0, 200).toArray();
        int[] times = random.ints(fabric.vertexCount(), 1, 3).toArray();
        return new CongestionCost(closed, price, times);
    }
}
