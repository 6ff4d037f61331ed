package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonParser;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.BadInput;
import padward.capture.Trace;
import picocli.CommandLine;

/** A circuit simulated from the command line, on drawn levels and on those of a file. */
class WatchSimulateTest {
    private static final String S0 = "pump/level/sample[0]";
    private static final String S1 = "pump/level/sample[1]";
    private static final String PAD = "pad:x7y2/pad[1]";

    @TempDir private Path folder;

    private record Run(int code, String out, String err) {}

    private Run watch(String... more) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        CommandLine line = Padward.commandLine();
        line.setOut(new PrintWriter(out));
        line.setErr(new PrintWriter(err));
        List<String> words =
                new ArrayList<>(
                        List.of(
                                "watch",
                                "trigger",
                                "--design",
                                "fixtures/small/only.design.json",
                                "--when",
                                "level/sample[1:0] == 2b11",
                                "--pad",
                                "J1.2"));
        words.addAll(List.of(more));
        return new Run(line.execute(words.toArray(String[]::new)), out.toString(), err.toString());
    }

    private String file(String name) {
        return folder.resolve(name).toString();
    }

    /** The levels of a signal in each cycle of a written trace. */
    private static boolean[] levels(String file, String signal) throws BadInput {
        Trace trace =
                Trace.read(Path.of(file), (scopes, own) -> Optional.of(new Trace.Named(own, 1)));
        int place = trace.signals().indexOf(signal);
        assertThat(place).as(signal + " in " + trace.signals()).isNotNegative();
        int cycles = trace.moments().size() / 2;
        boolean[] result = new boolean[cycles];
        for (int c = 0; c < cycles; c++) {
            result[c] = trace.moments().get(2 * c).get(place);
        }
        return result;
    }

    /** The register of the trigger shows what was so in the cycle before. */
    private static void assertTrigger(String file) throws BadInput {
        boolean[] zero = levels(file, S0);
        boolean[] one = levels(file, S1);
        boolean[] pad = levels(file, PAD);
        int high = 0;
        for (int c = 1; c < pad.length; c++) {
            assertThat(pad[c]).as("cycle " + c).isEqualTo(zero[c - 1] && one[c - 1]);
            high += pad[c] ? 1 : 0;
        }
        assertThat(high).isPositive();
    }

    @Test
    void drawnLevelsAreTheSameForTheSameSeed() throws Exception {
        Run run = watch("--simulate", file("one.vcd"), "--run", "200");
        assertThat(run.code()).as(run.err()).isZero();
        assertThat(run.out())
                .contains("Simulated 200 cycles; written: ")
                .contains("Levels drawn with seed 1: float_hi, float_lo.");
        assertTrigger(file("one.vcd"));
        watch("--simulate", file("two.vcd"), "--run", "200");
        assertThat(Files.readString(Path.of(file("two.vcd"))))
                .isEqualTo(Files.readString(Path.of(file("one.vcd"))));
        watch("--simulate", file("two.vcd"), "--run", "200", "--seed", "2");
        assertThat(Files.readString(Path.of(file("two.vcd"))))
                .isNotEqualTo(Files.readString(Path.of(file("one.vcd"))));
        assertTrigger(file("two.vcd"));
        Run json = watch("--simulate", file("one.vcd"), "--inputs", "zero", "--json");
        var simulated =
                JsonParser.parseString(json.out()).getAsJsonObject().getAsJsonObject("simulated");
        assertThat(simulated.get("cycles").getAsInt()).isEqualTo(1000);
        assertThat(levels(file("one.vcd"), PAD)).containsOnly(false);
    }

    /** Ports through the design's own registers; scopes, and a vector straight to the nets. */
    @Test
    void levelsComeFromAFile() throws Exception {
        String ports =
                """
                $timescale 10 ns $end
                $scope module bench $end
                $var reg 1 a float_hi $end $var reg 1 b float_lo $end $var wire 4 q other [3:0] $end
                $upscope $end $enddefinitions $end
                #0 0a 0b b1010 q
                #1 1a
                #2 1b
                #3 0a $comment nothing $end
                #4 1a xb
                #5 1b
                #9
                """;
        Files.writeString(Path.of(file("ports.vcd")), ports);
        Run run = watch("--simulate", file("out.vcd"), "--inputs", file("ports.vcd"));
        assertThat(run.code()).as(run.err()).isZero();
        assertTrigger(file("out.vcd"));
        // Two registers lie between the ports and the observed nets.
        assertThat(levels(file("out.vcd"), S0))
                .containsExactly(false, false, false, true, true, false, true);
        String nets =
                """
                $timescale 1 ns $end
                $scope module pump $end $scope module level $end
                $var wire 2 s sample [1:0] $end $upscope $end $upscope $end
                $var wire 1 c clk12 $end
                $enddefinitions $end
                #0 0c b00 s #5 1c #7 b1 s #10 0c #15 1c #16 b11 s #20 0c #25 1c #26 b10 s #30 0c #35 1c
                """;
        Files.writeString(Path.of(file("nets.vcd")), nets);
        assertThat(watch("--simulate", file("out.vcd"), "--inputs", file("nets.vcd")).code())
                .isZero();
        assertThat(levels(file("out.vcd"), S0)).containsExactly(false, true, true, false);
        assertThat(levels(file("out.vcd"), S1)).containsExactly(false, false, true, true);
        assertThat(levels(file("out.vcd"), PAD)).containsExactly(false, false, false, true);
    }

    @ParameterizedTest
    @CsvSource({
        "trace.txt, random, 10, --simulate",
        "trace.vcd, random, 0, --run",
        "trace.vcd, missing.vcd, 10, missing.vcd",
        "trace.vcd, README.md, 10, a declaration",
    })
    void badInputIsOneClearLine(String trace, String inputs, String run, String expected) {
        Run bad = watch("--simulate", file(trace), "--inputs", inputs, "--run", run);
        assertThat(bad.code()).isEqualTo(2);
        assertThat(bad.err()).contains(expected);
        assertThat(bad.err().lines().count()).isEqualTo(1);
        assertThat(Path.of(file(trace))).doesNotExist();
    }

    private Run withInputs(String declarations, String changes) throws Exception {
        Files.writeString(
                Path.of(file("in.vcd")),
                "$timescale 1 ns $end " + declarations + " $enddefinitions $end\n" + changes);
        return watch("--simulate", file("out.vcd"), "--inputs", file("in.vcd"));
    }

    /** The variable that says more of the net's name is read, wherever it stands in the file. */
    @Test
    void theVariableWithMostPartsOfTheNameIsRead() throws Exception {
        String exact =
                """
                $scope module bench $end $scope module pump $end $scope module level $end
                $var wire 2 s sample [1:0] $end $upscope $end $upscope $end $upscope $end
                """;
        String other =
                """
                $scope module model $end $scope module level $end
                $var wire 2 o sample [1:0] $end $upscope $end $upscope $end
                """;
        String changes = "#0 b01 s b10 o #1 b11 s b00 o #2 b00 s b11 o #3 b01 s";
        for (String declared : List.of(exact + other, other + exact)) {
            assertThat(withInputs(declared, changes).code()).isZero();
            assertThat(levels(file("out.vcd"), S0)).containsExactly(true, true, false, true);
            assertThat(levels(file("out.vcd"), S1)).containsExactly(false, true, false, false);
        }
    }

    @Test
    void twoVariablesForOneNetAreRefusedUnlessTheyAreOne() throws Exception {
        String one = "\n$scope module a $end $var wire 1 x float_hi $end $upscope $end\n";
        String alias = "$scope module b $end $var wire 1 x float_hi $end $upscope $end ";
        String other = "$scope module b $end $var wire 1 y float_hi $end $upscope $end ";
        assertThat(withInputs(one + alias, "#0 1x #1 0x").code()).isZero();
        Run bad = withInputs(one + other, "#0 1x 0y #1 0x");
        assertThat(bad.code()).isEqualTo(2);
        assertThat(bad.err()).contains("one variable for “float_hi”", "two, in lines 2 and 3");
    }

    /** One identifier can be two nets, and a value that is a number is no level. */
    @Test
    void everyNameOfAnIdentifierIsReadAndNoNumber() throws Exception {
        Run both =
                withInputs(
                        "$var wire 1 x float_hi $end $var wire 1 x float_lo $end"
                                + " $var real 64 r beep $end",
                        "#0 1x r1.5 r #1 1x #2 1x #3 1x #4 1x");
        assertThat(both.code()).as(both.err()).isZero();
        assertThat(levels(file("out.vcd"), S1)).contains(true);
        assertThat(levels(file("out.vcd"), PAD)).contains(true);
    }

    @Test
    @Timeout(60)
    void wideVariablesTakeNoLongTime() throws Exception {
        String wide = "$var reg 999999 w wide $end ";
        String hit = "$var wire 1 x float_hi $end ";
        assertThat(withInputs(wide + hit, "#0 1x 1w #1 0x b101 w").code()).isZero();
        Run bad = withInputs(wide.repeat(5) + hit, "#0 1x");
        assertThat(bad.code()).isEqualTo(2);
        assertThat(bad.err()).contains("at most 4000000 bits");
    }

    @Test
    void nothingIsKeptWhenTheSimulationFails() {
        String ledger = file("bench.json");
        Run bad =
                watch(
                        "--ledger",
                        ledger,
                        "--simulate",
                        file("t.vcd"),
                        "--inputs",
                        file("none.vcd"));
        assertThat(bad.code()).isEqualTo(2);
        assertThat(Path.of(ledger)).doesNotExist();
    }

    @Test
    void aDryRunWritesNoTrace() {
        String ledger = file("bench.json");
        Run dry = watch("--ledger", ledger, "--simulate", file("t.vcd"), "--dry-run");
        assertThat(dry.code()).as(dry.err()).isZero();
        assertThat(dry.out()).contains("Simulated 1000 cycles; not written (--dry-run): ");
        assertThat(folder).isEmptyDirectory();
        assertThat(watch("--simulate", file("t.vcd"), "--dry-run").code()).isZero();
        assertThat(folder).isEmptyDirectory();
    }

    @Test
    void aTraceIsNotTheLedger() throws Exception {
        String ledger = file("bench.vcd");
        assertThat(watch("--ledger", ledger).code()).isZero();
        String before = Files.readString(Path.of(ledger));
        Run bad = watch("--ledger", ledger, "--simulate", ledger);
        assertThat(bad.code()).isEqualTo(2);
        assertThat(bad.err()).contains("not an input");
        assertThat(Files.readString(Path.of(ledger))).isEqualTo(before);
    }

    /** What is written can be read again, and means the same. */
    @Test
    void aTraceIsReadAgain() throws BadInput {
        List<BitSet> moments = new ArrayList<>();
        for (int i = 0; i < 50; i++) {
            moments.add(BitSet.valueOf(new long[] {i * 37L}));
        }
        List<String> names = new ArrayList<>();
        for (int i = 0; i < 200; i++) {
            names.add("n[" + i + "]");
        }
        names.set(11, "größe[11]");
        new Trace(names, moments).write(Path.of(file("t.vcd")), List.of("clk"), "a test");
        for (int s = 0; s < 12; s++) {
            boolean[] levels = levels(file("t.vcd"), names.get(s));
            for (int i = 0; i < 50; i++) {
                assertThat(levels[i]).isEqualTo(moments.get(i).get(s));
            }
        }
    }
}
