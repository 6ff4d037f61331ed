package padward.watch.request;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.Progress;
import padward.design.Design;
import padward.design.NameLookup;
import padward.format.design.DesignReader;
import padward.watch.circuit.CircuitKinds;
import padward.watch.circuit.Signal;
import padward.watch.library.Select;
import padward.watch.place.WatchPlacer;
import padward.watch.place.WatchQuestion;
import padward.watch.place.WatchResult;

/** Selectors that do not fit: with how many of their nets they do. */
class ReducedRequestTest {
    private static final List<String> NETS =
            List.of(
                    "alarm/blink[0]",
                    "alarm/blink[1]",
                    "pump/level/hi_sync",
                    "pump/level/lo_sync",
                    "pump/level/sample[0]",
                    "pump/level/sample[1]",
                    "pump/run/decide",
                    "pump/run/hold");
    private static final List<String> STEER = List.of("float_hi", "float_lo", "alarm/beep");

    private Design design;
    private int pad;

    /** The small example with dividers in it, so that few cells are left. */
    private void fill(String divisors) throws Exception {
        design = DesignReader.read(Path.of("fixtures/small/only.design.json"), Progress.NONE);
        List<String> pads = List.of("J1.2", "x0y1/pad[1]", "J2.1");
        int next = 0;
        for (String by : divisors.split(" ")) {
            CircuitRequest divide =
                    new CircuitRequest(
                            CircuitSort.DIVIDE,
                            List.of(),
                            Optional.empty(),
                            Optional.empty(),
                            List.of(),
                            Optional.of(Integer.parseInt(by)),
                            Optional.empty(),
                            true);
            design = ((WatchResult.Placed) place(divide, pads.get(next++))).design();
        }
    }

    private WatchResult place(CircuitRequest request, String name) throws Exception {
        pad = NameLookup.requirePad(design, name, "--pad");
        return WatchPlacer.place(
                new WatchQuestion(design, request.circuit(design), List.of(pad)), Progress.NONE);
    }

    private static CircuitRequest select(boolean registered) {
        return new CircuitRequest(
                CircuitSort.SELECT,
                NETS,
                Optional.empty(),
                Optional.empty(),
                STEER,
                Optional.empty(),
                Optional.empty(),
                registered);
    }

    /** Every number of nets, each asked for by itself. */
    private int largestOfAll(Optional<String> clock) throws Exception {
        int largest = 0;
        for (int count = 2; count <= NETS.size(); count++) {
            int bits = count <= 2 ? 1 : count <= 4 ? 2 : 3;
            List<Signal> steer =
                    STEER.subList(0, bits).stream().<Signal>map(Signal.Observed::new).toList();
            WatchQuestion question =
                    new WatchQuestion(
                            design,
                            new Select(NETS.subList(0, count), steer, clock)
                                    .circuit(CircuitKinds.of(design.fabric().info())),
                            List.of(pad));
            if (WatchPlacer.place(question, Progress.NONE) instanceof WatchResult.Placed) {
                largest = count;
            }
        }
        return largest;
    }

    @ParameterizedTest
    @CsvSource({"65536 1024, true, 6", "65536 2048, true, 2", "65536 4096, true, 0"})
    void asManyOfTheFirstNetsAsFit(String divisors, boolean registered, int expected)
            throws Exception {
        fill(divisors);
        CircuitRequest asked = select(registered);
        WatchResult not = place(asked, "J1.1");
        assertThat(not).isInstanceOf(WatchResult.DoesNotFit.class);
        Optional<ReducedRequest> found = ReducedRequest.find(asked, not.question(), Progress.NONE);
        int largest = largestOfAll(registered ? Optional.of("clk12") : Optional.empty());
        assertThat(largest).isEqualTo(expected);
        assertThat(found.map(f -> f.request().nets()).orElse(List.of()))
                .isEqualTo(NETS.subList(0, largest));
        found.ifPresent(f -> assertThat(f.text()).startsWith("With only the first " + largest));
    }

    @Test
    void noneIsLookedForWhereTheUserStopsIt() throws Exception {
        fill("65536 1024");
        WatchResult not = place(select(true), "J1.1");
        assertThatThrownBy(
                        () ->
                                ReducedRequest.find(
                                        select(true), not.question(), Progress.NONE.within(0)))
                .isInstanceOf(CancellationException.class);
    }
}
