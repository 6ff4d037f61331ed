package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import picocli.CommandLine;

/** By how many cycles a kept circuit is late: on the sheet, and in deskewed captures. */
class WatchLatenessTest {
    private static final String DESIGN = "fixtures/small/only.design.json";

    @TempDir private Path folder;

    private record Run(int code, String out, String err) {}

    private Run run(String... words) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        CommandLine line = Padward.commandLine();
        line.setOut(new PrintWriter(out));
        line.setErr(new PrintWriter(err));
        return new Run(line.execute(words), out.toString(), err.toString());
    }

    private String file(String name) {
        return folder.resolve(name).toString();
    }

    private String sheet(String circuit) throws Exception {
        List<String> words = new ArrayList<>(List.of("watch"));
        words.addAll(List.of(circuit.split(" ")));
        words.addAll(List.of("--design", DESIGN, "--pad", "J1.2", "--ledger", file("l.json")));
        Run kept = run(words.toArray(String[]::new));
        assertThat(kept.code()).as(kept.err() + kept.out()).isZero();
        Run written =
                run("sheet", "--design", DESIGN, "--ledger", file("l.json"), "-o", file("s.csv"));
        assertThat(written.code()).as(written.err()).isZero();
        return Files.readString(folder.resolve("s.csv")).lines().skip(1).findFirst().orElseThrow();
    }

    @ParameterizedTest
    @CsvSource({
        "trigger --when hold, 1",
        "trigger --when rising(hold), 1",
        "sync --nets float_hi, 2",
        "divide --by 4, 1",
        "any --nets sample, 1",
        "stretch --when hold --cycles 3, 1",
        "toggle --when hold, 1",
        "select --nets sample --by hold, 1"
    })
    void theSheetSaysIt(String circuit, int cycles) throws Exception {
        assertThat(sheet(circuit)).endsWith("," + cycles + ",clk12,,");
        run("sheet", "--design", DESIGN, "--ledger", file("l.json"), "-o", file("s.html"));
        assertThat(Files.readString(folder.resolve("s.html")))
                .contains("registered by clk12, " + cycles + (cycles == 1 ? " cycle" : " cycles"));
    }

    @Test
    void withoutARegisterThereIsNone() throws Exception {
        assertThat(sheet("trigger --when hold --combinational")).endsWith(",,,,");
    }

    @Test
    void aCaptureIsShiftedByTheCycles() throws Exception {
        sheet("trigger --when hold");
        Files.writeString(
                folder.resolve("c.vcd"),
                "$timescale 1 ns $end\n$var wire 1 ! J1.2 $end\n$var wire 1 + other $end\n"
                        + "$enddefinitions $end\n#1000 0! 0+\n#2000 1! 1+\n");
        String[] words = {"deskew", file("c.vcd"), "--sheet", file("s.csv"), "-o", file("d.vcd")};
        Run without = run(words);
        assertThat(without.out())
                .contains("J1.2 is 1 cycle of clk12 late, which its delay does not contain");
        List<String> more = new ArrayList<>(List.of(words));
        more.addAll(List.of("--clock-mhz", "clk12=10"));
        Run with = run(more.toArray(String[]::new));
        assertThat(with.code()).as(with.err()).isZero();
        assertThat(with.out()).contains("100.000 ns, which its delay contains");
        assertThat(shift(with) - shift(without)).isBetween(99.99, 100.01);
        more.set(more.size() - 1, "clk13=10");
        Run wrong = run(more.toArray(String[]::new));
        assertThat(wrong.code()).isEqualTo(2);
        assertThat(wrong.err()).contains("--clock-mhz").contains("clk13");
    }

    /** A calibration is of another net through the same pad, which no register delays. */
    @Test
    void soIsOneWhoseDelayComesFromACalibration() throws Exception {
        sheet("trigger --when hold");
        String[] bus = {"--design", DESIGN, "--ledger", file("cal.json")};
        calibrate(bus);
        Run sheet =
                run(
                        with(
                                new String[] {"sheet", "--design", DESIGN},
                                "--ledger",
                                file("l.json"),
                                "--calibration",
                                file("cal.csv"),
                                "-o",
                                file("s.csv")));
        assertThat(sheet.code()).as(sheet.err()).isZero();
        Files.writeString(
                folder.resolve("c.vcd"),
                "$timescale 1 ns $end\n$var wire 1 ! J1.2 $end\n$var wire 1 + other $end\n"
                        + "$enddefinitions $end\n#1000 0! 0+\n#2000 1! 1+\n");
        String[] words = {"deskew", file("c.vcd"), "--sheet", file("s.csv"), "-o", file("d.vcd")};
        Run without = run(words);
        assertThat(without.out())
                .contains("measured: ")
                .contains("J1.2 is 1 cycle of clk12 late, which its delay does not contain");
        Run with = run(with(words, "--clock-mhz", "clk12=10"));
        assertThat(with.out()).contains("100.000 ns, which are added to its measured delay");
        assertThat(shift(with) - shift(without)).isBetween(99.99, 100.01);
    }

    /** Writes {@code cal.csv}, with delays that a capture of one net on two pads shows. */
    private void calibrate(String... ledger) throws Exception {
        Run bus = run(with(ledger("bus", ledger), "--calibrate", "hold", "--pads", "J1.1,J1.2"));
        assertThat(bus.code()).as(bus.err()).isZero();
        Files.writeString(
                folder.resolve("cal.vcd"),
                "$timescale 1 ps $end\n$var wire 1 ! J1.1 $end\n$var wire 1 + J1.2 $end\n"
                        + "$enddefinitions $end\n#1000000 0! 0+\n#2000000 1!\n#2000300 1+\n"
                        + "#3000000 0!\n#3000300 0+\n");
        Run lead = run(with(ledger("lead", ledger), "--capture", file("cal.vcd")));
        assertThat(lead.code()).as(lead.err()).isZero();
        run(with(ledger("sheet", ledger), "-o", file("cal.csv")));
    }

    private static String[] ledger(String command, String... options) {
        return with(new String[] {command}, options);
    }

    private static String[] with(String[] words, String... more) {
        List<String> all = new ArrayList<>(List.of(words));
        all.addAll(List.of(more));
        return all.toArray(String[]::new);
    }

    /** How far the other channel is shifted against that of the circuit. */
    private static double shift(Run run) {
        String line =
                run.out().lines().filter(l -> l.startsWith("Not on the")).findFirst().orElseThrow();
        return Double.parseDouble(line.replaceFirst("^.* by ([+-][0-9.]+) ns, .*$", "$1"));
    }
}
