package padward.watch.library;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Design;
import padward.format.design.DesignReader;

/** The clock of nets of the small example, where one net clocks everything. */
class ClockChoiceTest {
    private static Design small() throws BadInput {
        return DesignReader.read(Path.of("fixtures/small/only.design.json"), Progress.NONE);
    }

    @Test
    void theClockIsThatOfTheDrivingRegister() throws BadInput {
        List<String> nets = List.of("pump/level/sample[1]", "alarm/blink[0]");
        assertThat(ClockChoice.ofNets(small(), nets, "--clock")).isEqualTo("clk12");
        assertThat(ClockChoice.stated(small(), "clk12", "--clock")).isEqualTo("clk12");
    }

    @Test
    void aNetThatClocksNothingIsAFault() throws BadInput {
        Design design = small();
        BadInput fault =
                catchThrowableOfType(
                        BadInput.class, () -> ClockChoice.stated(design, "alarm/beep", "--clock"));
        assertThat(fault)
                .hasMessage(
                        "--clock: expected the name of a net that clocks a register (clk12), found"
                                + " “alarm/beep”, which clocks none");
        assertThat(
                        catchThrowableOfType(
                                BadInput.class,
                                () -> ClockChoice.stated(design, "clk13", "--clock")))
                .hasMessageContaining("clk12");
    }
}
