package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonObject;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Differences are listed; entries that no longer fit are reported and searched again. */
class NewerRunTest {
    private static final String NET = "pump/level/sample[1]";

    @TempDir private Path folder;
    private Path design;
    private Path ledger;
    private Path newer;

    @BeforeEach
    void keepTwoLines() throws Exception {
        design = CommandRun.copyExample(folder);
        ledger = folder.resolve("bench.json");
        newer = folder.resolve("newer.design.json");
        JsonObject kept = keep(NET, "J1.3").json();
        assertThat(kept.get("format").getAsString()).isEqualTo("padward-kept/1");
        assertThat(kept.getAsJsonObject("entry").getAsJsonArray("edits")).hasSize(3);
        keep("pump/level/sample[0]", "J2.1");
        String text = Files.readString(design);
        Files.writeString(newer, text.replace("pump/run/motor_out", "pump/run/drive_out"));
    }

    private CommandRun keep(String net, String pad) {
        return CommandRun.of(
                "keep",
                "-d",
                design,
                "-n",
                net,
                "-p",
                pad,
                "-l",
                ledger,
                "--json",
                "--accept",
                "follows");
    }

    @Test
    void aNewRouteIsSearchedReportedAndKept() throws Exception {
        Path output = folder.resolve("changed.json");
        Path fresh = folder.resolve("fresh.json");
        CommandRun run =
                CommandRun.of(
                        "apply",
                        "-d",
                        newer,
                        "-l",
                        ledger,
                        "-o",
                        output,
                        "--search-again",
                        "--new-ledger",
                        fresh,
                        "--json");
        assertThat(run.err()).isEmpty();
        assertThat(run.code()).isZero();
        JsonObject report = run.json();
        JsonObject first = report.getAsJsonArray("entries").get(0).getAsJsonObject();
        assertThat(first.get("outcome").getAsString()).isEqualTo("rerouted");
        assertThat(first.getAsJsonArray("reasons").get(0).getAsString())
                .isEqualTo("there is no cell pump/run/motor_out");
        JsonObject line = first.getAsJsonArray("lines").get(0).getAsJsonObject();
        assertThat(line.get("route").getAsString()).isEqualTo("new");
        assertThat(line.getAsJsonArray("hops")).isNotEmpty();
        assertThat(report.getAsJsonObject("audit").get("nothingElseChanged").getAsBoolean())
                .isTrue();
        // What was kept gives on its own run what was written.
        CommandRun same = CommandRun.of("diff", output, fresh, "-d", newer);
        assertThat(same.code()).isZero();
        assertThat(same.out()).contains("No differences");
        Path again = folder.resolve("again.json");
        assertThat(CommandRun.of("apply", "-d", newer, "-l", fresh, "-o", again).code()).isZero();
        assertThat(again).hasSameBinaryContentAs(output);
    }

    @Test
    void withoutANewSearchNothingIsWritten() {
        Path output = folder.resolve("changed.json");
        CommandRun run = CommandRun.of("apply", "-d", newer, "-l", ledger, "-o", output, "--json");
        assertThat(run.code()).isEqualTo(2);
        assertThat(run.json().has("written")).isFalse();
        assertThat(output).doesNotExist();
        CommandRun half =
                CommandRun.of("apply", "-d", newer, "-l", ledger, "-o", output, "--search-again");
        assertThat(half.err()).contains("--new-ledger");
    }

    @Test
    void anEntryWithoutANewRouteIsLeftOut() throws Exception {
        String text = Files.readString(newer);
        Files.writeString(newer, text.replace("\"pump/level/sample[1]\"", "\"pump/level/other\""));
        Path output = folder.resolve("changed.json");
        CommandRun run =
                CommandRun.of(
                        "apply",
                        "-d",
                        newer,
                        "-l",
                        ledger,
                        "-o",
                        output,
                        "--search-again",
                        "--new-ledger",
                        folder.resolve("fresh.json"));
        assertThat(run.code()).isEqualTo(1);
        assertThat(run.out()).contains("left out. Net " + NET + " no longer exists.");
    }

    @Test
    void everyWireAndDelayThatDiffersIsListed() throws Exception {
        CommandRun run = CommandRun.of("diff", design, ledger);
        assertThat(run.code()).isEqualTo(1);
        assertThat(run.out())
                .contains("Net " + NET + ": changed")
                .contains("+ x3y3/cell[1].out > ")
                .contains("to port out_J1.3: not reached before, ")
                .contains("Cell pump/run/motor_out: gone")
                .contains("Port motor: gone");
        JsonObject json = CommandRun.of("diff", ledger, design, "--json").json();
        assertThat(json.get("format").getAsString()).isEqualTo("padward-diff/1");
        assertThat(json.getAsJsonArray("ports"))
                .anyMatch(p -> p.toString().contains("\"name\":\"motor\",\"how\":\"new\""));
        assertThat(CommandRun.of("diff", ledger, ledger).code()).isZero();
        // With one byte more it is another file, whose ledger this is not.
        Files.writeString(design, Files.readString(design) + "\n");
        CommandRun other = CommandRun.of("diff", design, ledger);
        assertThat(other.code()).isEqualTo(2);
        assertThat(other.err()).contains("$.sha256").contains("made on another file");
    }

    @Test
    void filesThatCannotBeComparedAreReported() throws Exception {
        Path board = folder.resolve("board.json");
        assertThat(CommandRun.of("diff", design, board).err()).contains("a design or a ledger");
        CommandRun other =
                CommandRun.of("diff", design, Path.of("fixtures/workbench/design.json.gz"));
        assertThat(other.err()).contains("a design on the other's fabric");
        Files.delete(design);
        assertThat(CommandRun.of("diff", ledger, ledger).err()).contains("$.design");
    }

    /** The newer run has a port on a pad that was free: it keeps it. */
    @Test
    void aPortThatOnlyTheNewerRunHasKeepsItsPad() throws Exception {
        Path old = folder.resolve("old.json");
        Path other = folder.resolve("other.json");
        CommandRun.of("keep", "-d", design, "-n", NET, "-p", "J1.1", "-l", old);
        CommandRun.of(
                "keep", "-d", design, "-n", "pump/level/sample[0]", "-p", "J1.1", "-l", other);
        CommandRun.of("apply", "-d", design, "-l", other, "-o", newer);
        Path output = folder.resolve("changed.json");
        CommandRun run =
                CommandRun.of(
                        "apply",
                        "-d",
                        newer,
                        "-l",
                        old,
                        "-o",
                        output,
                        "--search-again",
                        "--new-ledger",
                        folder.resolve("fresh.json"));
        assertThat(run.code()).isEqualTo(1);
        assertThat(run.out())
                .contains(
                        "Port out_J1.1 has the pad in this run, and the entry did not disconnect"
                                + " it.");
        assertThat(Files.readString(output)).contains("out_J1.1");
        assertThat(Files.readString(folder.resolve("fresh.json"))).doesNotContain("break-out");
    }
}
