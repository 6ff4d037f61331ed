package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.Progress;
import padward.design.Design;
import padward.format.design.DesignReader;
import padward.format.design.Digest;
import padward.watch.simulate.DesignSimulation;
import picocli.CommandLine;

/** A netlist of the user's own as a watch circuit, from its file to the design as it is written. */
class OwnCommandTest {
    private static final String STEADY = "fixtures/netlists/steady.v";
    private static final String MAPPING = "fixtures/netlists/larch.mapping.json";

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

    private Run run(String... words) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        CommandLine line = Padward.commandLine();
        line.setOut(new PrintWriter(out));
        line.setErr(new PrintWriter(err));
        List<String> all = new ArrayList<>(List.of(words));
        all.addAll(List.of("--design", design.toString()));
        return new Run(line.execute(all.toArray(String[]::new)), out.toString(), err.toString());
    }

    private Run own(String netlist, String... more) {
        List<String> all = new ArrayList<>(List.of("watch", "own", "--netlist", netlist));
        all.addAll(List.of("--mapping", MAPPING));
        all.addAll(List.of(more));
        return run(all.toArray(String[]::new));
    }

    private String written(String name, String text) throws Exception {
        Path file = folder.resolve(name);
        Files.writeString(file, text);
        return file.toString();
    }

    @Test
    void itIsKeptHandedOverSimulatedAndUndone() throws Exception {
        String file = ledger.toString();
        String trace = folder.resolve("trace.vcd").toString();
        Run kept =
                own(
                        STEADY,
                        "--bind",
                        "noisy=float_hi",
                        "--pad",
                        "J1.2",
                        "--ledger",
                        file,
                        "--simulate",
                        trace);
        assertThat(kept.code()).as(kept.err()).isZero();
        assertThat(kept.out())
                .startsWith(
                        "Fits: 1 lookup table and 3 registers on free sites, out on pin E2 (DBG1)."
                                + " Output out of your netlist steady: noisy is float_hi, clock is"
                                + " clk12.")
                .contains("The pin is 1 cycle of clk12 late.", "float_hi (2 pins more)");
        assertThat(Path.of(trace)).exists();
        Path sheet = folder.resolve("sheet.html");
        assertThat(run("sheet", "--ledger", file, "-o", sheet.toString()).code()).isZero();
        assertThat(Files.readString(sheet))
                .contains("watch/own1/shown", "registered by clk12, 1 cycle late");
        Path changes = folder.resolve("changes.json");
        assertThat(run("changes", "--ledger", file, "-o", changes.toString()).code()).isZero();
        assertThat(Files.readString(changes)).contains("cell-new", "watch/own1/vote");
        Path changed = folder.resolve("changed.json");
        assertThat(run("apply", "--ledger", file, "-o", changed.toString()).code()).isZero();
        showsTwoOfThree(DesignReader.read(changed, Progress.NONE));
        assertThat(run("undo", "--ledger", file).code()).isZero();
        Path undone = folder.resolve("undone.json");
        assertThat(run("apply", "--ledger", file, "-o", undone.toString()).code()).isZero();
        assertThat(Digest.of(DesignReader.read(undone, Progress.NONE)))
                .isEqualTo(Digest.of(DesignReader.read(design, Progress.NONE)));
    }

    /** The design as it is written, against two of three in plain words. */
    private static void showsTwoOfThree(Design after) throws Exception {
        int pad = 0;
        for (int p = 0; p < after.fabric().pads().size(); p++) {
            pad = after.fabric().pads().get(p).packagePin().equals("E2") ? p : pad;
        }
        DesignSimulation simulation = new DesignSimulation(after);
        Random random = new Random(7);
        List<Boolean> past = new ArrayList<>();
        for (int t = 0; t < 500; t++) {
            boolean now = random.nextBoolean();
            past.add(now);
            simulation.begin(n -> n.equals("float_hi") ? Optional.of(now) : Optional.empty());
            if (t > 3) {
                long high = past.subList(t - 3, t).stream().filter(h -> h).count();
                assertThat(simulation.pad(pad)).as("cycle " + t).isEqualTo(high >= 2);
            }
            simulation.edge(
                    "clk12", Set.of("watch/own1/first", "watch/own1/second", "watch/own1/shown"));
        }
    }

    @Test
    void inputsAreBoundByEqualNamesAndVectorsAsAWhole() throws Exception {
        String netlist =
                written(
                        "both.v",
                        """
                        module both (input [1:0] level, input beep, input jumper, output [1:0] out);
                          look4 #(.contents(16'h8080)) all (.a(level[0]), .b(level[1]), .c(beep),
                              .y(out[0]));
                          look4 #(.contents(16'h6666)) odd (.a(jumper), .b(beep), .y(out[1]));
                        endmodule
                        """);
        Run run =
                own(
                        netlist,
                        "--bind",
                        "level=sample[1:0]",
                        "--bind",
                        "jumper=J2.1",
                        "--pad",
                        "J1.1,J1.2");
        assertThat(run.code()).as(run.err() + run.out()).isZero();
        assertThat(run.out())
                .contains(
                        "level[0] is pump/level/sample[0]",
                        "level[1] is pump/level/sample[1]",
                        "beep is alarm/beep",
                        "jumper is pad ",
                        "Read: ");
    }

    @Test
    void aParameterMayHaveAnotherName() throws Exception {
        String netlist =
                written(
                        "and.v",
                        """
                        module both (input hold, input beep, output out);
                          pick #(.truth(8)) t (.a(hold), .b(beep), .y(out));
                        endmodule
                        """
                                .replace("(8)", "(4'h8)"));
        String mapping =
                written(
                        "m.json",
                        """
                        {"format": "padward-mapping/1", "name": "m", "types": [
                          {"type": "pick", "kind": "lookup-table",
                           "pins": {"a": "in[0]", "b": "in[1]", "y": "out"},
                           "settings": {"tied in[2]": "0", "tied in[3]": "0"},
                           "parameters": {"truth": "contents"}}]}
                        """);
        Run run = run("watch", "own", "--netlist", netlist, "--mapping", mapping, "--pad", "J1.2");
        assertThat(run.code()).as(run.err() + run.out()).isZero();
        assertThat(run.out()).startsWith("Fits: 1 lookup table on free sites");
    }

    @ParameterizedTest
    @CsvSource({
        "'', found none for input noisy",
        "--bind noisy=float_hx, the nearest name is “float_hi”",
        "--bind noisi=float_hi, the nearest name is “noisy”",
        "--bind noisy, expected INPUT=NET",
        "--bind noisy=sample, expected one net",
        "--bind noisy=float_hi --bind noisy=float_lo, a second net for noisy",
        "--bind noisy=float_hi --bind clock=beep, which clocks none",
        "--bind noisy=float_hi --clock beep, which clocks none",
        "--bind noisy=float_hi --bind clock=clk12 --clock clk12, no such input",
        "--bind noisy=float_hi --pad J1.1, found “J1.2,J1.1”",
        "--bind noisy=float_hi --top other, other",
        "--bind noisy=motor, which the design drives"
    })
    void badInputIsOneClearLine(String words, String expected) {
        List<String> all = new ArrayList<>(List.of("--pad", "J1.2"));
        if (!words.isEmpty()) {
            all.addAll(List.of(words.split(" ")));
        }
        Run run = own(STEADY, all.toArray(String[]::new));
        assertThat(run.code()).as(run.out()).isEqualTo(2);
        assertThat(run.err()).contains(expected);
        assertThat(run.err().lines().count()).isEqualTo(1);
    }

    @Test
    void theFilesAreNeededAndTypesMustBeKnown() throws Exception {
        Run none = run("watch", "own", "--pad", "J1.2");
        assertThat(none.code()).isEqualTo(2);
        assertThat(none.err()).contains("--netlist: expected the netlist's file, found none");
        Run half = run("watch", "own", "--pad", "J1.2", "--netlist", STEADY);
        assertThat(half.err()).contains("--mapping: expected the mapping's file, found none");
        String netlist =
                written("x.v", "module x (input a, output y); gem g (.a(a), .y(y)); endmodule\n");
        Run unknown = own(netlist, "--pad", "J1.2");
        assertThat(unknown.code()).isEqualTo(2);
        assertThat(unknown.err()).contains("types that the mapping or the file describes", "gem");
    }

    @Test
    void twoClocksAreEachBound() throws Exception {
        String netlist =
                written(
                        "two.v",
                        """
                        module two (input one, input other, input hold, output out);
                          wire q;
                          keep a (.d(hold), .c(one), .q(q));
                          keep b (.d(q), .c(other), .q(out));
                        endmodule
                        """);
        Run run = own(netlist, "--pad", "J1.2");
        assertThat(run.code()).isEqualTo(2);
        assertThat(run.err()).contains("none for one, other");
        Run bound = own(netlist, "--pad", "J1.2", "--bind", "one=clk12", "--bind", "other=clk12");
        assertThat(bound.code()).as(bound.err()).isZero();
    }
}
