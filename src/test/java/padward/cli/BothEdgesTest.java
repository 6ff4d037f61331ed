package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.jsoup.Jsoup;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Nets that change at both edges of a clock, and clocks that cannot be forwarded. */
class BothEdgesTest {
    private static final String REGISTER = "{\"name\": \"register\", \"holdsState\": true";

    @TempDir private Path folder;
    private Path design;
    private Path ledger;

    @BeforeEach
    void copy() throws Exception {
        design = CommandRun.copyExample(folder);
        ledger = folder.resolve("l.json");
    }

    /** The registers of the example change at both edges of their clock. */
    private void doubleRate() throws Exception {
        Path fabric = folder.resolve("only.fabric.json");
        String text = Files.readString(fabric);
        int begin = text.indexOf("\"register\": {", text.indexOf(REGISTER));
        int end = text.indexOf("}", begin);
        Files.writeString(
                fabric,
                text.substring(0, begin)
                        + "\"doubleRateRegister\": {\"rising\": \"in[0]\", \"falling\": \"in[1]\","
                        + " \"clock\": \"clk\", \"output\": \"out\""
                        + text.substring(end));
    }

    /** One register, or two one after the other, would show every other value. */
    @Test
    void whatChangesAtBothEdgesIsNotRegisteredAtOne() throws Exception {
        doubleRate();
        CommandRun run =
                CommandRun.of(
                        "bus",
                        "-d",
                        design,
                        "-n",
                        "pump/level/sample[0]",
                        "-p",
                        "header J1",
                        "--register",
                        "clk12",
                        "--ledger",
                        ledger);
        assertThat(run.err()).isEmpty();
        assertThat(run.code()).isEqualTo(1);
        assertThat(run.out())
                .contains(
                        "it changes at both edges of clk12, and a register sees only one of them:"
                                + " every other value would be missing")
                .doesNotContain("two registers");
        assertThat(ledger).doesNotExist();
    }

    /** The example's clock has neither a route on its own wires nor a register of both edges. */
    @Test
    void whyAClockIsNotForwardedIsTold() {
        CommandRun ask = CommandRun.of("ask", "-d", design, "-n", "clk12", "-p", "J1.2");
        assertThat(ask.out())
                .contains(
                        "A register cannot show a copy of it either: its pad has no register of"
                                + " both edges.");
        CommandRun bus =
                CommandRun.of(
                        "bus",
                        "-d",
                        design,
                        "-n",
                        "clk12",
                        "-n",
                        "pump/level/sample[0]",
                        "-p",
                        "J1.1",
                        "--register",
                        "clk12");
        assertThat(bus.out()).contains("clk12 is not forwarded: no pad is left for it.");
        // Of a net that is no clock, nothing is said about forwarding.
        assertThat(CommandRun.of("ask", "-d", design, "-n", "alarm/beep", "-p", "J1.2").out())
                .doesNotContain("copy of it");
    }

    /** The sheet says what a line of two registers shows, and what it can miss. */
    @Test
    void theSheetOfASynchronisedLineSaysWhatItShows() throws Exception {
        CommandRun.of(
                "bus",
                "-d",
                design,
                "-n",
                "float_lo",
                "-p",
                "header J1, header J2",
                "--register",
                "clk12",
                "-l",
                ledger);
        Path page = folder.resolve("s.html");
        CommandRun.of("sheet", "-d", design, "-l", ledger, "-o", page, "--clock-mhz", "12");
        assertThat(Jsoup.parse(page).text())
                .contains("polarity: as float_lo")
                .contains("registered by clk12, 2 cycles late")
                .contains("A pulse shorter than a period of clk12 can be missed")
                .contains("Bank A: 1 output with 8 mA before, 2 outputs with 16 mA after.");
    }
}
