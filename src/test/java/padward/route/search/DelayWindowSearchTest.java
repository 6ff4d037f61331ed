package padward.route.search;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.BitSet;
import java.util.HashSet;
import java.util.Random;
import java.util.Set;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import padward.base.Progress;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.RandomFabrics;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;
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

    /**
     * Three routes lead to a at the same delay, and one to b; only from b one can arrive in time. A
     * key in which b looked like a took b for known, and the absence of a route for proven.
     */
    @Test
    void aLargeNumberIsNotTakenForASmallOne() {
        Fabric near =
                TextbookGraphs.of(
                        "s>p1 1, s>p2 1, s>p3 1, s>q 1, p1>a 1, p2>a 1, p3>a 1, q>b 1, a>g 4,"
                                + " b>g 1, b>h 3, h>g 2");
        FarNumbers far = new FarNumbers(near.findVertex("a"), near.findVertex("b"));
        Delay inTime = new Delay(7, 7);
        DelayWindowSearch.Outcome outcome =
                DelayWindowSearch.run(
                        far.of(near),
                        SearchSources.at(far.far(near.findVertex("s"))),
                        SearchSources.at(far.far(near.findVertex("s"))),
                        far.far(near.findVertex("g")),
                        new BitSet(),
                        new DelayWindowSearch.Window(inTime, inTime),
                        1000,
                        Progress.NONE);
        assertThat(outcome.kind()).isEqualTo(DelayWindowSearch.Kind.FOUND);
        assertThat(outcome.delay()).isEqualTo(inTime);
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
