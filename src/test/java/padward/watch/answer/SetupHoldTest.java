package padward.watch.answer;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.design.Design;
import padward.design.NameLookup;
import padward.design.Net;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;
import padward.format.design.DesignReader;
import padward.timing.TreeDelays;
import padward.watch.place.WatchPlacer;
import padward.watch.place.WatchQuestion;
import padward.watch.place.WatchResult;
import padward.watch.request.CircuitRequest;
import padward.watch.request.CircuitSort;

/** Setup and hold of a circuit's registers, against sums written out by hand. */
class SetupHoldTest {
    private static Design design;

    @BeforeAll
    static void read() throws Exception {
        design = DesignReader.read(Path.of("fixtures/small/only.design.json"), Progress.NONE);
    }

    private static WatchResult.Placed placed(CircuitSort sort, String net, String when)
            throws Exception {
        CircuitRequest request =
                new CircuitRequest(
                        sort,
                        List.of(net),
                        Optional.of(when),
                        Optional.empty(),
                        List.of(),
                        Optional.of(16),
                        Optional.empty(),
                        true);
        int pad = NameLookup.requirePad(design, "J1.2", "pad");
        return (WatchResult.Placed)
                WatchPlacer.place(
                        new WatchQuestion(design, request.circuit(design), List.of(pad)),
                        Progress.NONE);
    }

    private static Delay to(Design of, String net, String cell, String pin) {
        Net found = of.findNet(net).orElseThrow();
        int site = of.findCell(cell).orElseThrow().site();
        int vertex = of.fabric().site(site).findPin(pin);
        return TreeDelays.of(of.fabric(), found.route()).at(found.route().placeOf(vertex));
    }

    /** The numbers of kind register: 60–110 ps to its output, 40–80 ps setup, 10–20 ps hold. */
    @Test
    void aNetThroughARegister() throws Exception {
        String net = "pump/level/sample[0]";
        WatchResult.Placed placed = placed(CircuitSort.REGISTER, net, "beep");
        Design now = placed.design();
        String cell = placed.cells().get(0).cell();
        CircuitSetupHold found = CircuitSetupHold.of(placed);
        int period = Integer.MIN_VALUE;
        int hold = Integer.MAX_VALUE;
        for (Corner corner : Corner.values()) {
            boolean slow = corner == Corner.SLOW;
            int launched = to(now, "clk12", net, "clk").at(corner) + (slow ? 110 : 60);
            int arrives = launched + to(now, net, cell, "in[0]").at(corner);
            int edge = to(now, "clk12", cell, "clk").at(corner);
            int local = (int) Math.ceil((arrives + edge) * 0.025);
            period = Math.max(period, arrives - edge + (slow ? 80 : 40) + local);
            hold = Math.min(hold, arrives - edge - (slow ? 20 : 10) - local);
        }
        assertThat(found.leastPeriodPs().orElseThrow()).isCloseTo(period, within());
        assertThat(found.holdPs().orElseThrow()).isCloseTo(hold, within());
        assertThat(found.unknown()).isEmpty();
        assertThat(found.apart()).isEmpty();
        assertThat(found.lines().get(0)).startsWith("Setup is met by clock periods from ");
    }

    /** Whole picoseconds are rounded in another order. */
    private static Offset<Integer> within() {
        return Offset.offset(2);
    }

    @Test
    void whatComesFromAPortIsNamed() throws Exception {
        CircuitSetupHold found = CircuitSetupHold.of(placed(CircuitSort.SYNC, "float_hi", "beep"));
        assertThat(found.apart()).containsExactly("port float_hi");
        assertThat(found.lines().toString()).contains("What comes from port float_hi can change");
        assertThat(found.leastPeriodPs()).isPresent();
    }

    @Test
    void aCircuitWithoutRegistersSaysNothing() throws Exception {
        CircuitRequest request =
                new CircuitRequest(
                        CircuitSort.TRIGGER,
                        List.of(),
                        Optional.of("beep"),
                        Optional.empty(),
                        List.of(),
                        Optional.empty(),
                        Optional.empty(),
                        false);
        int pad = NameLookup.requirePad(design, "J1.2", "pad");
        WatchResult result =
                WatchPlacer.place(
                        new WatchQuestion(design, request.circuit(design), List.of(pad)),
                        Progress.NONE);
        assertThat(CircuitSetupHold.of((WatchResult.Placed) result).lines()).isEmpty();
    }
}
