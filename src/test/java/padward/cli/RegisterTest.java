package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonObject;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.Progress;
import padward.design.Design;
import padward.format.design.DesignReader;

/** {@code bus --register CLOCK --ledger}: registers before the pads, kept like any other change. */
class RegisterTest {
    @TempDir private Path folder;
    private Path design;
    private Path ledger;

    @BeforeEach
    void copy() throws Exception {
        design = CommandRun.copyExample(folder);
        ledger = folder.resolve("l.json");
    }

    private CommandRun bus(String nets, String pads, Object... more) {
        List<Object> words =
                new ArrayList<>(
                        List.of(
                                "bus",
                                "-d",
                                design,
                                "-n",
                                nets,
                                "-p",
                                pads,
                                "--register",
                                "clk12"));
        words.addAll(List.of(more));
        return CommandRun.of(words.toArray());
    }

    @Test
    void theRegistersAreInTheDesignThatApplyWrites() throws Exception {
        CommandRun kept = bus("pump/level/sample[*]", "header J1", "-l", ledger);
        assertThat(kept.err()).isEmpty();
        assertThat(kept.code()).isZero();
        assertThat(kept.out())
                .contains("The registers are placed.")
                .contains("add cell registered/pump/level/sample[0] of kind io-register on")
                .contains("branch net clk12 to registered/pump/level/sample[1].clk");
        Path changed = folder.resolve("changed.json");
        CommandRun.of("apply", "-d", design, "-l", ledger, "-o", changed);
        Design after = DesignReader.read(changed, Progress.NONE);
        for (int bit = 0; bit < 2; bit++) {
            String net = "pump/level/sample[" + bit + "]";
            assertThat(after.findCell("registered/" + net)).isPresent();
            assertThat(
                            after.textOf(
                                    after.findNet("registered/" + net)
                                            .orElseThrow()
                                            .sinks()
                                            .get(0)))
                    .startsWith("port out_J1.");
        }
        assertThat(CommandRun.of("check", changed).out()).contains("sound");
    }

    @Test
    void undoGivesTheVeryDesignBack() throws Exception {
        bus("pump/level/sample[*]", "header J1", "-l", ledger);
        CommandRun changes =
                CommandRun.of(
                        "changes", "-d", design, "-l", ledger, "-o", folder.resolve("c.json"));
        assertThat(changes.code()).isZero();
        Path inverse = folder.resolve("back.json");
        assertThat(
                        CommandRun.of(
                                        "changes", "-d", design, "-l", ledger, "--back", "-o",
                                        inverse)
                                .code())
                .isZero();
        assertThat(Files.readString(inverse)).contains("cell-gone");
        assertThat(CommandRun.of("undo", "-d", design, "-l", ledger).code()).isZero();
        Path back = folder.resolve("again.json");
        CommandRun.of("apply", "-d", design, "-l", ledger, "-o", back);
        assertThat(Files.readAllBytes(back)).isEqualTo(Files.readAllBytes(design));
    }

    /** What comes from a pad without a register changes when it likes. */
    @Test
    void aSignalWithoutAClockIsRefusedAndNothingIsKept() {
        CommandRun run = bus("float_hi", "header J1", "-l", ledger);
        assertThat(run.code()).isEqualTo(1);
        assertThat(run.out())
                .contains("not possible: it comes from port float_hi without a register")
                .contains("No registers have been placed.");
        assertThat(Files.exists(ledger)).isFalse();
    }

    @Test
    void withoutALedgerNothingIsPlacedAndJsonSaysHowItWouldBe() {
        JsonObject registered =
                bus("pump/level/sample[*]", "header J1", "--json")
                        .json()
                        .getAsJsonObject("registered");
        assertThat(registered.getAsJsonArray("edits").toString()).contains("add cell registered/");
        assertThat(registered.getAsJsonArray("lines").get(0).getAsJsonObject().get("notStated"))
                .hasToString("[\"setup of kind io-register\",\"hold of kind io-register\"]");
        assertThat(bus("pump/level/sample[*]", "header J1").out())
                .contains("No registers have been placed; with --ledger, they are.");
    }

    @Test
    void whatDoesNotGoTogetherIsAFault() {
        assertThat(bus("alarm/*", "header J1", "-l", ledger, "--match-ps", "100").code())
                .isEqualTo(2);
        assertThat(bus("alarm/*", "header J1", "--clock-mhz", "-1").code()).isEqualTo(2);
    }
}
