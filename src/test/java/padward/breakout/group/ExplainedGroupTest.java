package padward.breakout.group;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.CancellationException;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.breakout.ask.WantedDriver;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.Fabric;
import padward.synth.DesignMaker;

/**
 * What lets one more be served, added to a group after its routes: whatever was asked, matched or
 * stopped between, it is what the group has that is routed in one go, and the flow that it was
 * found by is not held for ever.
 */
class ExplainedGroupTest {
    private static final int SEEDS = 12;

    /** More nets than pads, so that never all are served. */
    private static RouteMatrix matrix(int seed) {
        Random random = new Random(seed);
        Design design = DesignMaker.make(1_500, seed / 4, 0.6, Progress.NONE).design();
        List<Net> nets =
                random.ints(0, design.nets().size())
                        .distinct()
                        .limit(7)
                        .mapToObj(design.nets()::get)
                        .toList();
        List<Integer> pads =
                random.ints(0, design.fabric().pads().size())
                        .distinct()
                        .limit(6)
                        .sorted()
                        .boxed()
                        .toList();
        return RouteMatrix.unsearched(
                design, nets, pads, Bus.Aim.MOST, ports(seed), WantedDriver.NONE);
    }

    private static Bus.Ports ports(int seed) {
        return seed % 2 == 1 ? Bus.Ports.MAY_DISCONNECT : Bus.Ports.KEEP;
    }

    private static Bus whole(int seed) {
        return matrix(seed).route(Map.of(), Optional.empty(), Progress.NONE);
    }

    @Test
    void routesComeWithoutWhatIsAddedToThem() {
        int explained = 0;
        for (int seed = 0; seed < SEEDS; seed++) {
            RouteMatrix matrix = matrix(seed);
            Bus routes = matrix.routes(Map.of(), Progress.NONE);
            assertThat(routes.proof().flatMap(Bus.Proof::oneMore)).isEmpty();
            Bus added = matrix.explained(routes, Progress.NONE);
            Bus whole = whole(seed);
            assertThat(added.edits()).as("seed %d", seed).isEqualTo(whole.edits());
            assertThat(added.proof()).as("seed %d", seed).isEqualTo(whole.proof());
            explained += added.isUnexplained() || added.proof().isEmpty() ? 0 : 1;
        }
        assertThat(explained).isGreaterThan(SEEDS / 2);
    }

    /** The result of the first time may get lost, as its job goes on after it. */
    @Test
    void whatWasFoundOnceIsThereForTheGroupAgain() {
        for (int seed = 0; seed < SEEDS; seed++) {
            RouteMatrix matrix = matrix(seed);
            Bus routes = matrix.routes(Map.of(), Progress.NONE);
            Bus first = matrix.explained(routes, Progress.NONE);
            assertThat(matrix.explained(routes, Progress.NONE)).isEqualTo(first);
            Bus again = matrix.routes(Map.of(), Progress.NONE);
            assertThat(matrix.explained(again, Progress.NONE).proof()).isEqualTo(first.proof());
        }
    }

    @Test
    void aFlowThatIsNotKeptForTheNextGroupIsNotHeldOnceItIsExplained() {
        int held = 0;
        for (int seed = 1; seed < SEEDS; seed += 2) {
            RouteMatrix matrix = matrix(seed);
            Bus routes = matrix.routes(Map.of(), Progress.NONE);
            held += routes.isUnexplained() && matrix.holdsFlow() ? 1 : 0;
            matrix.explained(routes, Progress.NONE);
            assertThat(matrix.holdsFlow()).as("seed %d", seed).isFalse();
        }
        assertThat(held).isPositive();
    }

    /** Routing once more, or explaining, is stopped at each call; the group is explained then. */
    @Test
    void aStopLosesNothing() {
        int stops = 0;
        for (int seed = 0; seed < 4; seed++) {
            Bus whole = whole(seed);
            RouteMatrix matrix = matrix(seed);
            Bus routes = matrix.routes(Map.of(), Progress.NONE);
            for (int call = 0; call < 40 && routes.isUnexplained(); call++) {
                Stop again = new Stop(call);
                if (again.comesIn(() -> matrix.routes(Map.of(), again))) {
                    stops++;
                }
                matrix.explained(routes, new Stop(call));
            }
            assertThat(matrix.explained(routes, Progress.NONE).proof())
                    .as("seed %d", seed)
                    .isEqualTo(whole.proof());
        }
        assertThat(stops).isPositive();
    }

    /** Of a net that is already on a pad there is nothing to bring out. */
    @Test
    void aStoppedGroupCountsTheNetsThatAreOnNoPadYet() {
        Design design = DesignMaker.make(1_500, 1, 0.6, Progress.NONE).design();
        Net there =
                design.nets().stream()
                        .filter(n -> isOn(design, n, pads(design)))
                        .findFirst()
                        .orElseThrow();
        List<Net> others =
                design.nets().stream()
                        .filter(n -> !isOn(design, n, pads(design)))
                        .limit(2)
                        .toList();
        List<Net> nets = List.of(others.get(0), there, others.get(1));
        int stopped = 0;
        for (int call = 0; call < 40; call++) {
            Stop stop = new Stop(call);
            RouteMatrix matrix =
                    RouteMatrix.unsearched(
                            design,
                            nets,
                            pads(design),
                            Bus.Aim.MOST,
                            Bus.Ports.KEEP,
                            WantedDriver.NONE);
            Optional<Bus.Bound> bound = matrix.routeOrSoFar(stop).bound();
            stopped += bound.isPresent() ? 1 : 0;
            assertThat(bound.map(Bus.Bound::of).orElse(2)).isEqualTo(2);
        }
        assertThat(stopped).isPositive();
    }

    private static List<Integer> pads(Design design) {
        return IntStream.range(0, design.fabric().pads().size()).boxed().toList();
    }

    private static boolean isOn(Design design, Net net, List<Integer> pads) {
        return pads.stream()
                .map(p -> design.fabric().pads().get(p).vertex())
                .anyMatch(v -> net.route().placeOf(v) != Fabric.NOTHING);
    }

    /** Says to stop from one call on. */
    private static final class Stop implements Progress {
        private final int at;
        private int calls;

        Stop(int at) {
            this.at = at;
        }

        /** Whether the work asked so often; then it was stopped. */
        boolean comesIn(Runnable work) {
            try {
                work.run();
                return false;
            } catch (CancellationException stopped) {
                assertThatThrownBy(this::check).isInstanceOf(CancellationException.class);
                return true;
            }
        }

        @Override
        public void report(double fraction, String message) {}

        @Override
        public boolean cancelled() {
            return calls++ >= at;
        }
    }
}
