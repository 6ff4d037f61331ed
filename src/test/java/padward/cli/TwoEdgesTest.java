package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonObject;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.jsoup.Jsoup;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A driver whose edges to high and to low take different times, with sums by hand. */
class TwoEdgesTest {
    private static final String BEFORE = "\"delay_ps\": [1900, 3100]";

    /** The edge to high is 200 ps later at the fast corner, 500 ps at the slow one. */
    private static final String EDGES =
            BEFORE + ", \"edges\": {\"toHigh_ps\": [2100, 3100], \"toLow_ps\": [1900, 2600]}";

    private static final String OUTPUT =
            ", \"output\": {\"rated_pf\": 5, \"rise_ps\": [800, 1600], \"ohms\": [25, 45]}";

    @TempDir private Path folder;
    private Path design;

    @BeforeEach
    void copy() throws Exception {
        design = CommandRun.copyExample(folder);
    }

    private void with(String setting) throws Exception {
        Path fabric = folder.resolve("only.fabric.json");
        String text = Files.readString(Path.of("fixtures/small/only.fabric.json"));
        assertThat(text).contains(BEFORE);
        Files.writeString(fabric, text.replace(BEFORE, setting));
    }

    private CommandRun ask(Object... more) {
        return CommandRun.of(
                Stream.concat(
                                Stream.of("ask", "-d", design, "-n", "alarm/beep", "-p", "J2.1"),
                                Stream.of(more))
                        .toArray());
    }

    @Test
    void theShortestLevelsAreTold() throws Exception {
        with(EDGES + OUTPUT);
        // A whole edge is 1600 ps / 0.8; a high level loses 500 ps more, a low one gains them.
        assertThat(ask().out())
                .contains(
                        "Edges to high and to low leave the driver up to 0.500 ns apart: a high"
                                + " level of less than 2.500 ns or a low one of less than 2.000 ns"
                                + " does not reach its full height on the pad.");
        JsonObject json = ask("--json").json();
        assertThat(json.get("shortestHigh_ps").getAsInt()).isEqualTo(2500);
        assertThat(json.get("shortestLow_ps").getAsInt()).isEqualTo(2000);
        Path ledger = folder.resolve("l.json");
        CommandRun.of("keep", "-d", design, "-l", ledger, "-n", "alarm/beep", "-p", "J2.1");
        Path page = folder.resolve("s.html");
        CommandRun.of("sheet", "-d", design, "-l", ledger, "-o", page);
        assertThat(Jsoup.parse(page).text()).contains("leave the driver up to 0.500 ns apart");
    }

    @Test
    void withoutARiseTimeTheDifferenceAloneIsTold() throws Exception {
        with(EDGES);
        assertThat(ask().out())
                .contains("a high level of less than 0.500 ns or a low one of less than 0.000 ns")
                .contains("no rise time is stated");
        with(BEFORE);
        assertThat(ask().out()).doesNotContain("leave the driver");
        assertThat(ask("--json").json().has("shortestHigh_ps")).isFalse();
    }

    /** Which edge it is, is not known: half of the difference is uncertain, in the sheet's file. */
    @Test
    void halfTheDifferenceIsUncertain() throws Exception {
        with(BEFORE);
        int without = tolerance("a.json");
        with(EDGES);
        assertThat(tolerance("b.json")).isEqualTo(without + 250);
    }

    /**
     * In the middle of its range an edge to high is 2600 ps late at the driver, one to low 2250: a
     * level that leaves the chip 10 ns long is stamped 10 ns less 350 ps.
     */
    @Test
    void deskewedLevelsAreAsLongAsInside() throws Exception {
        with(EDGES);
        tolerance("c.json");
        Path capture =
                Files.writeString(
                        folder.resolve("c.vcd"),
                        """
                        $timescale 1 ps $end
                        $var wire 1 ! J2.1 $end
                        $enddefinitions $end
                        $dumpvars 0! $end
                        #100000 1!
                        #109650 0!
                        """);
        Path sheet = folder.resolve("c.json.csv");
        Path out = folder.resolve("deskewed.vcd");
        CommandRun run = CommandRun.of("deskew", capture, "--sheet", sheet, "-o", out);
        assertThat(run.out())
                .contains("+0.0000 ns rising, +0.3500 ns falling")
                .contains("Rising edges are shifted by the delay of rising ones");
        assertThat(Files.readString(out)).contains("#100000\n1!", "#110000\n0!");
        // Measured delays are the mean of both edges.
        List<String> rows = Files.readAllLines(sheet);
        int column = List.of(rows.get(0).split(",")).indexOf("measured_ps");
        String[] cells = rows.get(1).split(",", -1);
        cells[column] = "0";
        cells[column + 1] = "20";
        Files.write(sheet, List.of(rows.get(0), String.join(",", cells)));
        assertThat(CommandRun.of("deskew", capture, "--sheet", sheet, "-o", out).out())
                .contains("+0.0000 ns rising, +0.3500 ns falling")
                .contains("measured");
        // A level of 100 ps is not left over: its edges stay in their order.
        Files.writeString(
                capture,
                Files.readString(capture).replace("1!\n#109650 0!", "1!\n#120000 0!\n#120100 1!"));
        run = CommandRun.of("deskew", capture, "--sheet", sheet, "-o", out);
        assertThat(run.out())
                .contains(
                        "J2.1: 1 change would have come before the change that precedes it; it is put"
                                + " right after it and marked as uncertain, because the pulse between"
                                + " is shorter than the two edges' delays differ.");
        assertThat(Files.readString(out)).contains("#120350\n0!", "#120351\n1!");
    }

    private int tolerance(String name) throws Exception {
        Path ledger = folder.resolve(name);
        CommandRun.of("keep", "-d", design, "-l", ledger, "-n", "alarm/beep", "-p", "J2.1");
        Path sheet = folder.resolve(name + ".csv");
        CommandRun.of("sheet", "-d", design, "-l", ledger, "-o", sheet);
        List<String> rows = Files.readAllLines(sheet);
        int column = List.of(rows.get(0).split(",")).indexOf("outsideTolerance_ps");
        return Integer.parseInt(rows.get(1).split(",", -1)[column]);
    }

    @Test
    void aDelayThatDoesNotSpanBothIsAFault() throws Exception {
        with(EDGES.replace("2600", "2700").replace("[1900, 3100]", "[1900, 3000]"));
        CommandRun run = ask();
        assertThat(run.code()).isEqualTo(2);
        assertThat(run.err())
                .contains("settings[0]")
                .contains("a delay that spans both edges, [1900, 3100], found [1900, 3000]");
    }
}
