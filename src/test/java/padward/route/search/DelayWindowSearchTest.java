package padward.route.search;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.BitSet;
import java.util.HashSet;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.CancellationException;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import padward.base.Progress;
import padward.example.HandMade;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.RandomFabrics;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;
import padward.fabric.pattern.PatternFabric;
import padward.fabric.pattern.PatternFault;
import padward.route.search.DelayWindowSearch.Kind;
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

    private static DelayWindowSearch.Outcome search(
            Fabric fabric, Delay least, Delay most, int labels, Progress progress) {
        SearchSources start = SearchSources.at(fabric.findVertex("s"));
        return DelayWindowSearch.run(
                fabric,
                start,
                start,
                fabric.findVertex("g"),
                new BitSet(),
                new DelayWindowSearch.Window(least, most),
                labels,
                progress);
    }

    /** How a search ends for routes of a certain delay, the same at both corners. */
    private static DelayWindowSearch.Kind kind(String edges, int leastPs, int mostPs, int labels) {
        return search(
                        TextbookGraphs.of(edges),
                        new Delay(leastPs, leastPs),
                        new Delay(mostPs, mostPs),
                        labels,
                        Progress.NONE)
                .kind();
    }

    private static final int ENOUGH = 1000;

    @Test
    void aRouteMayTakeTheWholeWindow() {
        String line = "s>a 3, a>g 4";
        assertThat(kind(line, 7, 7, ENOUGH)).isEqualTo(Kind.FOUND);
        assertThat(kind(line, 5, 6, ENOUGH)).isEqualTo(Kind.PROVEN_NONE);
        assertThat(kind(line, 8, 9, ENOUGH)).isEqualTo(Kind.PROVEN_NONE);
    }

    /** A quarter of a microsecond at the fast corner, half of one at the slow corner. */
    @ParameterizedTest
    @CsvSource({"262143, 524287, FOUND", "262144, 524287, NOT_FOUND", "262143, 524288, NOT_FOUND"})
    void windowsThatEndTooLateAreNotSearched(int fastPs, int slowPs, Kind expected) {
        Fabric line = TextbookGraphs.of("s>g 4");
        Delay most = new Delay(fastPs, slowPs);
        assertThat(search(line, Delay.ZERO, most, ENOUGH, Progress.NONE).kind())
                .isEqualTo(expected);
    }

    @Test
    void aSearchThatMayNotLookFartherProvesNothing() {
        String line = "s>a 3, a>g 4";
        assertThat(kind(line, 7, 7, 3)).isEqualTo(Kind.FOUND);
        assertThat(kind(line, 7, 7, 2)).isEqualTo(Kind.NOT_FOUND);
        assertThat(kind(line, 5, 6, 1)).isEqualTo(Kind.PROVEN_NONE);
    }

    /**
     * Wires that lead from s to a with the same delay, and a loop at a, with which alone a route
     * would take 13. Of more than three alike some are left out; then a second search, which does
     * not look for loops, can only prove that there is none.
     */
    private static String alike(int count, String more) {
        return IntStream.range(0, count)
                .mapToObj(i -> "s>p" + i + " 1, p" + i + ">a 1, ")
                .collect(Collectors.joining("", "", "a>g 1" + more));
    }

    @Test
    void whereRoutesWereLeftOutOnlyTheSecondSearchProvesThatThereIsNone() {
        String loop = ", a>x 5, x>a 5";
        assertThat(kind(alike(3, loop), 13, 13, ENOUGH)).isEqualTo(Kind.PROVEN_NONE);
        assertThat(kind(alike(4, loop), 13, 13, ENOUGH)).isEqualTo(Kind.NOT_FOUND);
        assertThat(kind(alike(4, ""), 13, 13, ENOUGH)).isEqualTo(Kind.PROVEN_NONE);
        assertThat(kind(alike(4, loop), 3, 3, ENOUGH)).isEqualTo(Kind.FOUND);
    }

    /** Three pairs of alike wires in a row: 30 labels for all routes, 11 without alike ones. */
    @Test
    void theSecondSearchNeedsFewerLabels() {
        String pairs =
                "s>p 1, s>q 1, p>a 1, q>a 1, a>r 1, a>t 1, r>b 1, t>b 1, b>u 1, b>v 1, u>g 1,"
                        + " v>g 1";
        assertThat(kind(pairs, 9, 99, 11)).isEqualTo(Kind.PROVEN_NONE);
        assertThat(kind(pairs, 9, 99, 5)).isEqualTo(Kind.NOT_FOUND);
    }

    /** From a, a branch over c comes too late at one corner or both: it takes no label. */
    @ParameterizedTest
    @CsvSource({"9, 9, 11, 11", "9, 9, 11, 999", "1, 9, 11, 11"})
    void aBranchThatComesTooLateIsNotFollowed(int fastPs, int slowPs, int mostFast, int mostSlow) {
        Fabric fabric =
                new HandMade()
                        .wires("s a b c g")
                        .chain("s a", 1, 1)
                        .chain("a b g", 5, 5)
                        .chain("a c", fastPs, slowPs)
                        .chain("c g", 5, 5)
                        .fabric();
        Delay most = new Delay(mostFast, mostSlow);
        assertThat(search(fabric, new Delay(11, 11), most, 4, Progress.NONE).kind())
                .isEqualTo(Kind.FOUND);
    }

    /**
     * A route over a takes 12, as asked for, before or after a; one over f takes 2, and from f a
     * hundred wires lead on. The search follows the one that lacks no delay, though it is farther
     * from the goal.
     */
    @ParameterizedTest
    @CsvSource({"10, 1", "2, 9"})
    void whatLacksNoDelayIsFollowedFirst(int toPs, int fromPs) {
        String fan =
                IntStream.range(0, 100)
                        .mapToObj(i -> ", f>x" + i + " 1, x" + i + ">g 1")
                        .collect(Collectors.joining());
        String edges = "s>a " + toPs + ", a>b " + fromPs + ", b>g 1, s>f 1, f>g 1" + fan;
        assertThat(kind(edges, 12, 20, 20)).isEqualTo(Kind.FOUND);
    }

    /** Twelve pairs of wires whose delays differ by powers of two: all sums differ. */
    @Test
    void aLongSearchAsksWhetherToStopButNotAtEachLabel() {
        StringBuilder edges = new StringBuilder("s>v0 1");
        for (int i = 0; i < 12; i++) {
            String from = "v" + i;
            String to = "v" + (i + 1);
            edges.append(", " + from + ">l" + i + " 1, l" + i + ">" + to + " 1");
            edges.append(", " + from + ">h" + i + " 1, h" + i + ">" + to + " " + (1 + (1 << i)));
        }
        edges.append(", v12>g 1");
        Fabric fabric = TextbookGraphs.of(edges.toString());
        int[] asked = new int[1];
        Progress counting =
                new Progress() {
                    @Override
                    public void report(double fraction, String message) {}

                    @Override
                    public boolean cancelled() {
                        asked[0]++;
                        return false;
                    }
                };
        Delay late = new Delay(5000, 5000);
        assertThat(search(fabric, late, late, 100_000, counting).kind())
                .isEqualTo(Kind.PROVEN_NONE);
        assertThat(asked[0]).isBetween(10, 100);
        Progress stop = Progress.NONE.within(0);
        assertThatThrownBy(() -> search(fabric, late, late, 100_000, stop))
                .isInstanceOf(CancellationException.class);
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
