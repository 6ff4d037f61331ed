package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.jsoup.Jsoup;
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

    /** What was refused must not be reported as done. */
    @Test
    void nothingIsReportedThatIsNotWritten() {
        CommandRun run =
                bus("pump/level/sample[*]", "header J1", "-l", ledger, "--accept", "nothing");
        assertThat(run.code()).isEqualTo(2);
        assertThat(run.err()).contains("--accept: expected one of");
        assertThat(run.out()).isEmpty();
        assertThat(Files.exists(ledger)).isFalse();
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

    /** As without registers: a net of the group has no pad, and the others are kept. */
    @Test
    void aNetThatIsNotServedIsToldByTheStatus() {
        CommandRun run = bus("pump/level/sample[*]", "J1.4", "-l", ledger);
        assertThat(run.out()).contains("Not served: ", "The registers are placed.");
        assertThat(run.code()).isEqualTo(1);
        assertThat(Files.exists(ledger)).isTrue();
    }

    /** What comes from a pad without a register changes when it likes: two registers take it. */
    @Test
    void aSignalWithoutAClockPassesTwoRegisters() throws Exception {
        CommandRun run = bus("float_hi", "header J1", "-l", ledger);
        assertThat(run.err()).isEmpty();
        assertThat(run.code()).isZero();
        assertThat(run.out())
                .contains("two registers, see below")
                .contains("float_hi passes two registers of clk12, watch/sync1/first on ")
                .contains("comes out two periods later.")
                .contains("add cell watch/sync1/out of kind io-register on ")
                .contains("The registers are placed.");
        JsonObject json =
                bus("float_hi", "header J1", "--json")
                        .json()
                        .getAsJsonObject("registered")
                        .getAsJsonArray("inFabric")
                        .get(0)
                        .getAsJsonObject();
        assertThat(json.get("cycles").getAsInt()).isEqualTo(2);
        assertThat(json.getAsJsonArray("registers")).hasSize(2);
        assertThat(CommandRun.of("undo", "-d", design, "-l", ledger).code()).isZero();
        Path back = folder.resolve("again.json");
        CommandRun.of("apply", "-d", design, "-l", ledger, "-o", back);
        assertThat(Files.readAllBytes(back)).isEqualTo(Files.readAllBytes(design));
    }

    /** Registered lines and synchronised ones are late by different numbers of cycles. */
    @Test
    void theSheetSaysHowManyCyclesEachLineIsLate() throws Exception {
        bus("pump/level/sample[0]", "header J1", "-n", "float_hi", "-l", ledger);
        Path sheet = folder.resolve("s.csv");
        assertThat(CommandRun.of("sheet", "-d", design, "-l", ledger, "-o", sheet).code()).isZero();
        List<String> rows = Files.readAllLines(sheet);
        int late = List.of(rows.get(0).split(",")).indexOf("lateCycles");
        for (String row : rows.subList(1, 3)) {
            String[] cells = row.split(",", -1);
            assertThat(cells[late]).isEqualTo(row.contains("watch/sync1/out") ? "2" : "1");
            assertThat(cells[late + 1]).isEqualTo("clk12");
        }
        Path page = folder.resolve("s.html");
        CommandRun.of("sheet", "-d", design, "-l", ledger, "-o", page);
        assertThat(Jsoup.parse(page).text())
                .contains("channel 1: registered by clk12, 1 cycle late")
                .contains("channel 2: registered by clk12, 2 cycles late");
    }

    @Test
    void whatCannotBeMetIsRefusedAndNothingIsKept() throws Exception {
        Path fabric = folder.resolve("only.fabric.json");
        String none = "\"io-register\", \"holdsState\": false}";
        Files.writeString(
                fabric,
                Files.readString(fabric).replace("\"io-register\", \"holdsState\": true}", none));
        CommandRun run = bus("alarm/beep", "header J1", "-l", ledger, "--clock-mhz", "100000");
        assertThat(run.code()).isEqualTo(1);
        assertThat(run.out()).contains("not possible: ").contains("No registers have been placed.");
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

    /** When registered lines are valid, on the sheet, relative to the channel of the clock. */
    @Test
    void theSheetSaysWhenLinesAreValid() throws Exception {
        bus("pump/level/sample[*]", "header J1", "-l", ledger);
        CommandRun.of("keep", "-d", design, "-l", ledger, "-n", "clk12", "-p", "J2.1");
        Path page = folder.resolve("s.html");
        CommandRun made =
                CommandRun.of(
                        "sheet",
                        "-d",
                        design,
                        "-l",
                        ledger,
                        "-o",
                        page,
                        "--clock-channel",
                        "clk12",
                        "--clock-mhz",
                        "50");
        assertThat(made.err()).isEmpty();
        assertThat(Jsoup.parse(Files.readString(page)).select(".valid li").eachText())
                .anyMatch(
                        t -> t.startsWith("Channel 1, registered/") && t.contains(": valid from "))
                .anyMatch(t -> t.startsWith("All are valid from "))
                .anyMatch(t -> t.startsWith("Threshold: 1.65 V"));
        Path table = folder.resolve("s.csv");
        CommandRun.of("sheet", "-d", design, "-l", ledger, "-o", table, "--clock-channel", "3");
        List<String> rows = Files.readAllLines(table);
        assertThat(rows.get(0)).endsWith(",validFrom_ps,validTo_ps");
        assertThat(rows.get(1)).matches(".*,-?\\d+,-?\\d+");
        assertThat(rows.get(3)).endsWith(",,");
        assertThat(
                        CommandRun.of(
                                        "sheet",
                                        "-d",
                                        design,
                                        "-l",
                                        ledger,
                                        "-o",
                                        page,
                                        "--clock-channel",
                                        "9")
                                .code())
                .isEqualTo(2);
    }

    /** What was measured of a registered line and its clock replaces what is calculated. */
    @Test
    void measuredDelaysEnterTheValidTimes() throws Exception {
        bus("pump/level/sample[*]", "header J1", "-l", ledger);
        CommandRun.of("keep", "-d", design, "-l", ledger, "-n", "clk12", "-p", "J2.1");
        List<List<Integer>> calculated = validTimes();
        measure(1, 3_000, 20);
        assertThat(validTimes()).as("the clock was not measured").isEqualTo(calculated);
        measure(3, 1_000, 10);
        List<List<Integer>> measured = validTimes();
        assertThat(measured.get(0)).isNotEqualTo(calculated.get(0));
        assertThat(measured.get(1)).as("not measured itself").isEqualTo(calculated.get(1));
        int from = measured.get(0).get(0);
        int to = measured.get(0).get(1);
        measure(1, 3_500, 20);
        assertThat(validTimes().get(0)).containsExactly(from + 500, to + 500);
        measure(1, 3_500, 120);
        assertThat(validTimes().get(0)).containsExactly(from + 600, to + 400);
        Path page = folder.resolve("m.html");
        sheet(page);
        assertThat(Jsoup.parse(Files.readString(page)).select(".valid li").eachText())
                .anyMatch(t -> t.startsWith("Channel 1, ") && t.contains(", measured: valid from "))
                .anyMatch(t -> t.startsWith("Channel 2, ") && !t.contains("measured"));
    }

    private void measure(int channel, int delayPs, int tolerancePs) throws Exception {
        JsonArray leads =
                CommandRun.of("lead", "-d", design, "-l", ledger, "--json")
                        .json()
                        .getAsJsonArray("leads");
        String port = leads.get(channel - 1).getAsJsonObject().get("port").getAsString();
        List<Object> words = new ArrayList<>(List.of("lead", "-d", design, "-l", ledger));
        words.addAll(List.of("--port", port, "--measured-ps", delayPs));
        words.addAll(List.of("--tolerance-ps", tolerancePs));
        assertThat(CommandRun.of(words.toArray()).err()).isEmpty();
    }

    private void sheet(Path file) {
        CommandRun made =
                CommandRun.of(
                        "sheet", "-d", design, "-l", ledger, "-o", file, "--clock-channel", "3");
        assertThat(made.err()).isEmpty();
    }

    /** From when to when channels 1 and 2 are valid. */
    private List<List<Integer>> validTimes() throws Exception {
        Path table = folder.resolve("v.csv");
        sheet(table);
        List<List<Integer>> result = new ArrayList<>();
        for (String row : Files.readAllLines(table).subList(1, 3)) {
            String[] cells = row.split(",", -1);
            result.add(
                    List.of(
                            Integer.parseInt(cells[cells.length - 2]),
                            Integer.parseInt(cells[cells.length - 1])));
        }
        return result;
    }

    /** The same for a group that shows its clock, as text and JSON. */
    @Test
    void aGroupWithItsClockSaysWhenLinesAreValid() {
        List<Object> words =
                List.of(
                        "bus",
                        "-d",
                        design,
                        "-n",
                        "*sample[?]",
                        "-n",
                        "clk12",
                        "-p",
                        "header J1,J2.1",
                        "--unblock",
                        "--clock-channel",
                        "clk12",
                        "--clock-mhz",
                        "50");
        CommandRun text = CommandRun.of(words.toArray());
        assertThat(text.out())
                .contains("Valid at the instrument, after rising edges of clk12 on pad ")
                .containsPattern(
                        "pump/level/sample\\[1\\]: valid from [\\d.]+ ns (after|before) an edge");
        List<Object> json = new ArrayList<>(words);
        json.add("--json");
        JsonObject valid = CommandRun.of(json.toArray()).json().getAsJsonObject("valid");
        assertThat(valid.get("clock").getAsString()).isEqualTo("clk12");
        assertThat(valid.getAsJsonObject("all").get("from_ps").getAsInt())
                .isGreaterThan(valid.getAsJsonObject("all").get("to_ps").getAsInt());
    }
}
