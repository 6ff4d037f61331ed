package padward.route.search;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.BitSet;
import java.util.HashSet;
import java.util.Random;
import java.util.Set;
import java.util.stream.LongStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import padward.base.Progress;
import padward.fabric.Corner;
import padward.fabric.Delay;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.RandomFabrics;
import padward.fabric.pattern.PatternFabric;
import padward.fabric.pattern.PatternFault;
import padward.timing.EdgeFinder;

/** Routes in a window against all routes without loops, by brute force. */
class DelayWindowSearchTest {
    private static final int MOST_ROUTES = 60_000;

    static LongStream seeds() {
        return LongStream.range(0, 120);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void agreesWithBruteForce(long seed) throws PatternFault {
        Random random = new Random(seed);
        Fabric fabric = PatternFabric.compile(RandomFabrics.pattern(seed));
        BitSet closed = new BitSet();
        for (int v = 0; v < fabric.vertexCount(); v++) {
            closed.set(v, random.nextInt(100) < 60);
        }
        for (int tries = 0; tries < 6; tries++) {
            int from = random.nextInt(fabric.vertexCount());
            int to = random.nextInt(fabric.vertexCount());
            int least = random.nextInt(2500);
            int width = random.nextInt(60);
            DelayWindowSearch.Window window =
                    new DelayWindowSearch.Window(
                            new Delay(0, least), new Delay(least + width, least + width));
            AllRoutes all = new AllRoutes(fabric, closed, to, least + width);
            closed.set(from);
            all.walk(from, 0, 0);
            DelayWindowSearch.Outcome outcome =
                    DelayWindowSearch.run(
                            fabric,
                            SearchSources.at(from),
                            SearchSources.at(from),
                            to,
                            closed,
                            window,
                            20_000,
                            Progress.NONE);
            if (from == to || all.routes > MOST_ROUTES) {
                continue;
            }
            boolean exists =
                    all.found.stream().anyMatch(d -> window.contains(d.fastPs(), d.slowPs()));
            switch (outcome.kind()) {
                case FOUND -> {
                    assertThat(exists).isTrue();
                    check(fabric, outcome, window, closed);
                }
                case PROVEN_NONE -> assertThat(exists).isFalse();
                case NOT_FOUND -> assertThat(all.routes).isGreaterThan(2);
            }
        }
    }

    private static void check(
            Fabric fabric,
            DelayWindowSearch.Outcome outcome,
            DelayWindowSearch.Window window,
            BitSet closed) {
        EdgeFinder finder = new EdgeFinder(fabric);
        Delay sum = Delay.ZERO;
        Set<Integer> seen = new HashSet<>();
        for (int i = 0; i < outcome.path().size(); i++) {
            assertThat(seen.add(outcome.path().vertex(i))).isTrue();
            if (i > 0) {
                sum =
                        sum.plus(
                                finder.get(outcome.path().vertex(i - 1), outcome.path().vertex(i))
                                        .delay());
                assertThat(closed.get(outcome.path().vertex(i)) && i < outcome.path().size() - 1)
                        .isFalse();
            }
        }
        assertThat(sum).isEqualTo(outcome.delay());
        assertThat(window.contains(sum.fastPs(), sum.slowPs())).isTrue();
    }

    /** Every route without a loop within a limit. */
    private static final class AllRoutes {
        private final Fabric fabric;
        private final BitSet closed;
        private final int goal;
        private final int limitPs;
        private final BitSet on = new BitSet();
        private final Set<Delay> found = new HashSet<>();
        private int routes;

        AllRoutes(Fabric fabric, BitSet closed, int goal, int limitPs) {
            this.fabric = fabric;
            this.closed = closed;
            this.goal = goal;
            this.limitPs = limitPs;
        }

        void walk(int vertex, int fastPs, int slowPs) {
            if (slowPs > limitPs || ++routes > MOST_ROUTES) {
                return;
            }
            if (vertex == goal) {
                found.add(new Delay(fastPs, slowPs));
                return;
            }
            on.set(vertex);
            EdgeCursor edges = fabric.edgesOut();
            edges.reset(vertex);
            while (edges.next()) {
                int next = edges.other();
                if (!on.get(next) && (next == goal || !closed.get(next))) {
                    walk(
                            next,
                            fastPs + edges.delayPs(Corner.FAST),
                            slowPs + edges.delayPs(Corner.SLOW));
                }
            }
            on.clear(vertex);
        }
    }
}
