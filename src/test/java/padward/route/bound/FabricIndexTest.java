package padward.route.bound;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.BitSet;
import java.util.List;
import java.util.concurrent.CancellationException;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.example.CountingFabric;
import padward.fabric.Fabric;
import padward.fabric.RandomFabrics;
import padward.fabric.delay.Corner;
import padward.fabric.pattern.PatternFabric;
import padward.fabric.pattern.PatternFault;
import padward.route.cost.ObstacleCost;
import padward.route.jgrapht.ReferenceSearch;
import padward.route.search.PathSearch;
import padward.route.search.PerimeterSearch;
import padward.route.search.RouteFinder;
import padward.route.search.SearchOutcome;
import padward.route.search.SearchSources;
import padward.synth.FabricMaker;

class FabricIndexTest {
    /** Cancelled when it has been asked so often. */
    private static final class After implements Progress {
        private int left;

        After(int checks) {
            left = checks;
        }

        @Override
        public void report(double fraction, String message) {}

        @Override
        public boolean cancelled() {
            return left-- <= 0;
        }
    }

    private static List<Fabric> fabrics() throws PatternFault {
        PatternFabric pattern = PatternFabric.compile(RandomFabrics.pattern(5));
        return List.of(pattern, RandomFabrics.explicit(pattern));
    }

    @Test
    void eachFabricOwnsItsOwnIndex() throws PatternFault {
        Fabric one = fabrics().get(0);
        Fabric other = fabrics().get(0);
        assertThat(FabricIndex.of(one)).isSameAs(FabricIndex.of(one));
        assertThat(FabricIndex.of(one)).isNotSameAs(FabricIndex.of(other));
    }

    @Test
    void aPartIsCalculatedOnce() throws PatternFault {
        for (Fabric fabric : fabrics()) {
            FabricIndex index = FabricIndex.of(fabric);
            var table = index.table(Corner.SLOW, LowerBoundTable.Goals.PADS, Progress.NONE);
            assertThat(index.table(Corner.SLOW, LowerBoundTable.Goals.PADS, new After(0)))
                    .isSameAs(table);
        }
    }

    /** Cancelled at every place where it can be, the table is the same in the end. */
    @Test
    void aCancelledTableLeavesNothingHalfMade() throws PatternFault {
        int pads = 0;
        for (int i = 0; i < fabrics().size(); i++) {
            Fabric expected = fabrics().get(i);
            Fabric fabric = fabrics().get(i);
            int cancelled = 0;
            boolean done = false;
            while (!done) {
                try {
                    FabricIndex.of(fabric)
                            .table(Corner.SLOW, LowerBoundTable.Goals.PADS, new After(cancelled));
                    done = true;
                } catch (CancellationException stopped) {
                    cancelled++;
                }
            }
            assertThat(cancelled).isGreaterThan(1);
            for (var pad : fabric.pads()) {
                LowerBound bound = best(fabric, pad.vertex());
                LowerBound same = best(expected, pad.vertex());
                for (int v = 0; v < fabric.vertexCount(); v++) {
                    assertThat(bound.at(v)).isEqualTo(same.at(v));
                }
                pads++;
            }
        }
        assertThat(pads).isPositive();
    }

    private static LowerBound best(Fabric fabric, int goal) {
        return FabricIndex.of(fabric).bestBound(goal, Corner.SLOW, Progress.NONE);
    }

    /** The first question on a fabric, which calculates the index, can be cancelled as well. */
    @Test
    void theFirstQuestionCanBeCancelled() throws PatternFault {
        for (int i = 0; i < 4; i++) {
            Fabric fabric = fabrics().get(i % 2);
            RouteFinder finder =
                    i < 2
                            ? new PerimeterSearch(new PathSearch(fabric))
                            : ReferenceSearch.aStar(fabric);
            ObstacleCost model = new ObstacleCost(new BitSet(), new BitSet(), v -> v);
            int goal = fabric.pads().get(0).vertex();
            SearchOutcome outcome =
                    finder.find(SearchSources.at(0), goal, Corner.SLOW, model, new After(0));
            assertThat(outcome).isInstanceOf(SearchOutcome.Cancelled.class);
            assertThatThrownBy(() -> FabricIndex.of(fabric).distanceRate(Corner.SLOW, new After(0)))
                    .isInstanceOf(CancellationException.class);
            assertThat(finder.find(SearchSources.at(0), goal, Corner.SLOW, model, Progress.NONE))
                    .isNotInstanceOf(SearchOutcome.Cancelled.class);
        }
    }

    /** A large fabric has ten times as many edges as vertices. */
    @Test
    void whatAVertexIsIsFoundOutOnceAndNotForEachEdge() throws PatternFault {
        Fabric fabric = RandomFabrics.explicit(PatternFabric.compile(FabricMaker.make(6000, 3)));
        CountingFabric counting = new CountingFabric(fabric);
        FabricIndex.of(counting.fabric()).longestEdgePs(Progress.NONE);
        assertThat(counting.calls("wireKind")).isLessThanOrEqualTo(fabric.vertexCount());
        assertThat(counting.calls("siteOf")).isLessThanOrEqualTo(2 * fabric.vertexCount());
    }

    /** Some milliseconds' work, as each vertex has some ten edges. */
    @Test
    void itIsOftenAskedWhetherToStop() throws PatternFault {
        Fabric fabric = RandomFabrics.explicit(PatternFabric.compile(FabricMaker.make(20000, 3)));
        CountingFabric counting = new CountingFabric(fabric);
        CountingFabric.Checked progress = counting.checked();
        FabricIndex.of(counting.fabric()).longestEdgePs(progress);
        assertThat(progress.most()).isLessThanOrEqualTo(4096);
    }
}
