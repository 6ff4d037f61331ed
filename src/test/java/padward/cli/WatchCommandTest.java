package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.Progress;
import padward.example.TwoClocks;
import padward.format.design.DesignReader;
import padward.format.design.Digest;
import picocli.CommandLine;

/** Watch circuits from the command line: answered, kept, handed over, undone. */
class WatchCommandTest {
    private static final String WHEN = "level/sample[1:0] == 2b11 && !beep";

    @TempDir private Path folder;
    private Path design;
    private Path ledger;

    private record Run(int code, String out, String err) {}

    @BeforeEach
    void copyExample() throws Exception {
        for (String name : List.of("only.design.json", "only.fabric.json", "board.json")) {
            Files.copy(Path.of("fixtures/small", name), folder.resolve(name));
        }
        design = folder.resolve("only.design.json");
        ledger = folder.resolve("bench.json");
    }

    private Run run(String command, String... more) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        CommandLine line = Padward.commandLine();
        line.setOut(new PrintWriter(out));
        line.setErr(new PrintWriter(err));
        List<String> words = new ArrayList<>(List.of(command));
        words.addAll(List.of(more));
        words.addAll(List.of("--design", design.toString()));
        return new Run(line.execute(words.toArray(String[]::new)), out.toString(), err.toString());
    }

    private Run watch(String... more) {
        return run("watch", more);
    }

    private static JsonObject object(Run run) {
        return JsonParser.parseString(run.out()).getAsJsonObject();
    }

    @Test
    void aTriggerIsAnsweredWithWhatItCosts() {
        Run run = watch("trigger", "--when", WHEN, "--pad", "J1.2");
        assertThat(run.code()).as(run.err()).isZero();
        assertThat(run.out())
                .startsWith("Fits: 1 lookup table and 1 register on free sites, out on pin E2")
                .contains("The pin is 1 cycle of clk12 late.")
                .contains("alarm/beep (1 pin more)")
                .contains("; the registers that it had already get it after ")
                .contains("What it costs: 1 lookup table and 1 register.")
                .contains("Cautions:");
        assertThat(ledger).doesNotExist();
    }

    /** What a new user tries first: the name is asked for in full, then it fits. */
    @Test
    void aPinThatIsHighWhileALevelIsAboveANumber() {
        design = Path.of("fixtures/workbench/design.json.gz");
        Run several = watch("trigger", "--when", "level/state > 0x30", "--pad", "J1.3");
        assertThat(several.code()).isEqualTo(2);
        assertThat(several.err()).contains("which matches pump/level/state, valve/level/state");
        Run run = watch("trigger", "--when", "pump/level/state > 0x30", "--pad", "J1.3");
        assertThat(run.code()).as(run.err()).isZero();
        assertThat(run.out())
                .startsWith("Fits: 3 lookup tables and 1 register on free sites, out on pin S28");
    }

    @Test
    void aNetAloneGetsNoBranch() {
        Run run = watch("trigger", "--combinational", "--when", "hold", "--pad", "J1.2");
        assertThat(run.code()).as(run.err()).isZero();
        assertThat(run.out()).doesNotContain("Branched").contains("What it costs: ");
    }

    @Test
    void keptHandedOverAndUndone() throws Exception {
        String before = Digest.of(DesignReader.read(design, Progress.NONE));
        String file = ledger.toString();
        Run kept = watch("trigger", "--when", WHEN, "--pad", "J1.2", "--ledger", file, "--json");
        assertThat(kept.code()).as(kept.err()).isZero();
        JsonObject answer = object(kept);
        assertThat(answer.get("kept").getAsBoolean()).isTrue();
        assertThat(answer.getAsJsonArray("cells")).hasSize(2);
        assertThat(answer.getAsJsonObject("entry").get("note").getAsString())
                .startsWith("High while");
        // A second one has other names, other cells and another pad.
        assertThat(watch("divide", "--by", "4", "--pad", "x0y1/pad[1]", "--ledger", file).code())
                .isZero();
        Path sheet = folder.resolve("sheet.html");
        assertThat(run("sheet", "--ledger", file, "-o", sheet.toString()).code()).isZero();
        assertThat(Files.readString(sheet)).contains("watch/trigger1/out", "one cycle of clk12");
        Path changes = folder.resolve("changes.json");
        assertThat(run("changes", "--ledger", file, "-o", changes.toString()).code()).isZero();
        assertThat(Files.readString(changes)).contains("cell-new", "net-new", "contents");
        Path changed = folder.resolve("changed.json");
        Run applied = run("apply", "--ledger", file, "-o", changed.toString());
        assertThat(applied.code()).as(applied.err()).isZero();
        assertThat(DesignReader.read(changed, Progress.NONE).findCell("watch/trigger1/out"))
                .isPresent();
        assertThat(run("undo", "--ledger", file).code()).isZero();
        assertThat(run("undo", "--ledger", file).code()).isZero();
        assertThat(Digest.of(DesignReader.read(design, Progress.NONE))).isEqualTo(before);
    }

    @Test
    void whatFollowsOnTheBoardNeedsAYes() throws Exception {
        String file = ledger.toString();
        Run refused = watch("trigger", "--when", "hold", "--pad", "x0y6/pad[0]", "--ledger", file);
        assertThat(refused.code()).isEqualTo(2);
        assertThat(refused.err()).contains("--accept");
        assertThat(ledger).doesNotExist();
        Run kept =
                watch(
                        "trigger",
                        "--when",
                        "hold",
                        "--pad",
                        "x0y6/pad[0]",
                        "--ledger",
                        file,
                        "--accept",
                        "follows");
        assertThat(kept.code()).as(kept.err()).isZero();
        Path changed = folder.resolve("changed.json");
        assertThat(run("apply", "--ledger", file, "-o", changed.toString()).out())
                .contains(
                        "What it costs: Port buzzer loses its pad. Q3 pin gate will follow"
                                + " watch/trigger1");
    }

    @Test
    void aSelectorIsSteeredFromAPad() {
        Run run =
                watch(
                        "select",
                        "--nets",
                        "pump/level/sample*",
                        "--by",
                        "x0y2/pad[0]",
                        "--pad",
                        "J1.2");
        assertThat(run.code()).as(run.err()).isZero();
        assertThat(run.out()).contains("Read: pin A3", "1 pump/level/sample[1]");
    }

    @Test
    void whatDoesNotFitSaysWhy() {
        Run run = watch("trigger", "--when", "hold", "--pad", "x3y0/pad[0]", "--json");
        assertThat(run.code()).isEqualTo(1);
        JsonObject answer = object(run);
        assertThat(answer.get("fits").getAsBoolean()).isFalse();
        assertThat(answer.get("reason").getAsString()).isEqualTo("pad-blocked");
        assertThat(answer.get("proven").getAsBoolean()).isTrue();
        assertThat(answer.get("sentence").getAsString()).contains("input-only");
    }

    @Test
    void whatIsMovedIsToldAndUndone() throws Exception {
        Run not = watch("trigger", "--when", "hold", "--pad", "J2.1");
        assertThat(not.code()).isEqualTo(1);
        assertThat(not.out()).contains("With --may-move it fits: reroute net alarm/beep.");
        String file = ledger.toString();
        Run told = watch("trigger", "--when", "hold", "--pad", "J2.1", "--may-move");
        assertThat(told.out())
                .contains(
                        "To make room: reroute net alarm/beep.",
                        "Rerouted: net alarm/beep (port buzzer ");
        Run kept =
                watch(
                        "trigger",
                        "--when",
                        "hold",
                        "--pad",
                        "J2.1",
                        "--may-move",
                        "--ledger",
                        file,
                        "--json");
        assertThat(kept.code()).as(kept.err()).isZero();
        assertThat(object(kept).getAsJsonArray("moved").get(0).getAsString())
                .isEqualTo("reroute net alarm/beep");
        assertThat(object(kept).getAsJsonObject("price").toString()).contains("alarm/beep");
        assertThat(run("ledger", "show", "--ledger", file, "--entry", "1").out() + kept.out())
                .contains("alarm/beep");
        Path changes = folder.resolve("changes.json");
        assertThat(run("changes", "--ledger", file, "-o", changes.toString()).code()).isZero();
        assertThat(Files.readString(changes)).contains("alarm/beep", "cell-new");
        assertThat(run("undo", "--ledger", file).code()).isZero();
        Path undone = folder.resolve("undone.json");
        assertThat(run("apply", "--ledger", file, "-o", undone.toString()).code()).isZero();
        assertThat(Digest.of(DesignReader.read(undone, Progress.NONE)))
                .isEqualTo(Digest.of(DesignReader.read(design, Progress.NONE)));
    }

    @ParameterizedTest
    @CsvSource({
        "toggle --when rising(hold)",
        "stretch --when rising(hold) --cycles 5",
        "sticky --when hold --reset beep",
        "sync --nets float_hi",
        "register --nets pump/run/hold",
        "any --nets pump/level/sample*",
        "parity --nets pump/level/sample*",
        "parity --nets level/sample",
        "parity --nets sample[1:0]",
        "parity --nets sample*",
        "parity --combinational --nets pump/level/sample*",
        "divide --by 6 --when hold"
    })
    void theOthersFitToo(String words) {
        List<String> all = new ArrayList<>(List.of(words.split(" ")));
        all.addAll(List.of("--pad", "J1.2"));
        Run run = watch(all.toArray(String[]::new));
        assertThat(run.code()).as(run.err() + run.out()).isZero();
        assertThat(run.out()).startsWith("Fits: ");
    }

    @Test
    void netsOfTwoClocksNeedAStatedOne() throws Exception {
        Path two = TwoClocks.write(Files.createDirectory(folder.resolve("two")));
        design = two;
        Run run = watch("any", "--nets", "alarm/blink*", "--pad", "J1.2");
        assertThat(run.code()).isEqualTo(2);
        assertThat(run.err())
                .isEqualToIgnoringNewLines(
                        "padward: --clock: expected a stated clock, as the nets have more than one,"
                                + " found clk12 of alarm/blink[0], float_hi of alarm/blink[1]");
        Run stated = watch("any", "--nets", "alarm/blink*", "--clock", "clk12", "--pad", "J1.2");
        assertThat(stated.code()).as(stated.err()).isZero();
    }

    @Test
    void withoutEnoughFreeCellsItDoesNotFit() {
        String[] large = {"divide", "--by", "65536", "--pad", "J1.2"};
        String[] kept = Arrays.copyOf(large, 7);
        kept[5] = "--ledger";
        kept[6] = ledger.toString();
        assertThat(watch(kept).code()).isZero();
        kept[4] = "x0y1/pad[1]";
        Run again = watch(kept);
        assertThat(again.code()).isEqualTo(1);
        assertThat(again.out())
                .startsWith(
                        "Does not fit: The circuit has 36 cells, and the free sites that they could"
                                + " use are enough for 27.");
    }

    /** Dividers leave a few cells: all eight nets do not fit, the first six do. */
    @Test
    void fewerNetsAreOfferedWhereAllDoNotFit() {
        String file = ledger.toString();
        watch("divide", "--by", "65536", "--pad", "J1.2", "--ledger", file);
        watch("divide", "--by", "1024", "--pad", "x0y1/pad[1]", "--ledger", file);
        List<String> select = new ArrayList<>(List.of("select", "--pad", "J1.1"));
        List<String> nets =
                List.of("alarm/blink", "hi_sync", "lo_sync", "sample", "decide", "run/hold");
        nets.forEach(n -> select.addAll(List.of("--nets", n)));
        select.addAll(List.of("--by", "float_hi,float_lo,beep", "--ledger", file));
        Run not = watch(select.toArray(String[]::new));
        assertThat(not.code()).as(not.err()).isEqualTo(1);
        String offer =
                "With only the first 6 of the 8 nets, chosen by float_hi, float_lo and beep, it"
                        + " fits: 4 lookup tables and 1 register.";
        assertThat(not.out()).contains(offer);
        select.add("--json");
        assertThat(object(watch(select.toArray(String[]::new))).get("fewerNets").getAsString())
                .isEqualTo(offer);
        List<String> six = new ArrayList<>(select.subList(0, 3));
        nets.subList(0, 4).forEach(n -> six.addAll(List.of("--nets", n)));
        six.addAll(List.of("--by", "float_hi,float_lo,beep", "--ledger", file));
        assertThat(watch(six.toArray(String[]::new)).out()).startsWith("Fits: 4 lookup tables");
    }

    @ParameterizedTest
    @CsvSource({
        "trigger, --when",
        "trigger --when hold===beep, at character",
        "trigger --when nothing, --when",
        "trigger --when sample[1:0]==3b101, a number of 2 bits",
        "trigger --when sample[1:0]==blink[0], a vector of 2 bits",
        "trigger --when hold&&, at character 7",
        "trigger --when hold --clock hold, expected the name of a net that clocks a register (clk12)",
        "trigger --when hold --clock clk13, --clock: expected the name of a net",
        "register --nets beeep, --nets",
        "sticky --when hold --reset hold&&, --reset",
        "divide, --by",
        "divide --by x, --by",
        "divide --by 1, --by",
        "sync, --nets",
        "register --nets pump/level/sample*, one net",
        "stretch --when hold, --cycles",
        "count --nets pump/level/sample* --cycles 2, 2 different pads",
        "select --nets pump/level/sample* --by x3y9/pad[0], --by",
        "select --nets pump/level/sample* --by motor, --by",
        "select --nets pump/level/sample* --by hold --by beep, expected 1 net or pad"
    })
    void badInputIsOneClearLine(String words, String expected) {
        List<String> all = new ArrayList<>(List.of(words.split(" ")));
        all.addAll(List.of("--pad", "J1.2"));
        Run run = watch(all.toArray(String[]::new));
        assertThat(run.code()).as(run.out()).isEqualTo(2);
        assertThat(run.err()).contains(expected);
        assertThat(run.err().lines().count()).isEqualTo(1);
    }
}
