package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import padward.cli.output.ExitStatus;
import picocli.CommandLine;

/** The commands that explain, run as a user runs them. */
class CommandsTest {
    private static final String DESIGN = "fixtures/small/only.design.json";
    private static final String NET = "pump/level/sample[1]";

    private record Run(int code, String out, String err) {}

    private static Run run(String... words) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        CommandLine line = Padward.commandLine();
        line.setOut(new PrintWriter(out));
        line.setErr(new PrintWriter(err));
        return new Run(line.execute(words), out.toString(), err.toString());
    }

    private static Run ask(String pad, String... more) {
        List<String> words =
                new ArrayList<>(List.of("ask", "--design", DESIGN, "--net", NET, "--pad", pad));
        words.addAll(List.of(more));
        return run(words.toArray(new String[0]));
    }

    @Test
    void aBlockedAnswerListsObstaclesAndConsequences() {
        Run run = ask("J1.3");
        assertThat(run.code()).isEqualTo(1);
        assertThat(run.out())
                .contains("Every route must go through IO register site x7y3/outreg[0]")
                .contains("Proven minimum: at least one obstacle must go.")
                .contains("1. remove cell pump/run/motor_out")
                .contains("on every route")
                .contains("removable: only serves port motor")
                .contains("Cautions:");
    }

    @Test
    void anOpenAnswerListsWhatEveryFreeRoutePasses() {
        Run run = ask("x7y2/pad[1]");
        assertThat(run.code()).isZero();
        assertThat(run.out())
                .contains("Every free route goes through")
                .contains("IO register site x7y2/outreg[1]");
    }

    @Test
    void theJsonContainsTheExplanation() {
        Run run = ask("x0y5/pad[0]", "--json");
        JsonObject answer = JsonParser.parseString(run.out()).getAsJsonObject();
        JsonObject why = answer.getAsJsonObject("why");
        assertThat(why.get("provenMinimum").getAsBoolean()).isTrue();
        assertThat(why.get("lowerBound").getAsInt()).isEqualTo(1);
        JsonObject first = why.getAsJsonArray("options").get(0).getAsJsonObject();
        JsonObject obstacle = first.getAsJsonArray("obstacles").get(0).getAsJsonObject();
        assertThat(obstacle.get("name").getAsString()).isEqualTo("alarm/beep");
        assertThat(obstacle.get("consequence").getAsString()).isEqualTo("movable");
        assertThat(obstacle.get("means").getAsString()).isEqualTo("reroute");
        assertThat(first.getAsJsonArray("edits").get(0).getAsString())
                .isEqualTo("reroute net alarm/beep");
    }

    @Test
    void aStoppedSearchReportsTheQuestionAsUndecided() {
        Run run = ask("J1.3", "--within-ms", "0");
        assertThat(run.code()).isEqualTo(1);
        assertThat(run.out()).startsWith("Undecided: the search was stopped after 0 ms");
        JsonObject answer =
                JsonParser.parseString(ask("J1.3", "--within-ms", "0", "--json").out())
                        .getAsJsonObject();
        assertThat(answer.get("answer").getAsString()).isEqualTo("undecided");
        assertThat(ask("J1.3", "--within-ms", "-1").code()).isEqualTo(2);
        assertThat(ask("J1.3", "--within-ms", "600000").out()).isEqualTo(ask("J1.3").out());
    }

    @ParameterizedTest
    @CsvSource({"reference", "reference-guided"})
    void referenceEnginesGiveTheSameAnswer(String engine) {
        assertThat(ask("x7y2/pad[1]", "--engine", engine).out())
                .startsWith(ask("x7y2/pad[1]").out().split(":")[0]);
        assertThat(delayOf(ask("x7y2/pad[1]", "--engine", engine, "--json")))
                .isEqualTo(delayOf(ask("x7y2/pad[1]", "--json")));
    }

    private static JsonElement delayOf(Run run) {
        JsonElement delay = JsonParser.parseString(run.out()).getAsJsonObject().get("delay_ps");
        assertThat(delay).isNotNull();
        return delay;
    }

    @Test
    void whatIfAnswersOnTheEditedDesign() {
        Run run = ask("x0y5/pad[0]", "--what-if", "remove net alarm/beep");
        assertThat(run.code()).isZero();
        assertThat(run.out())
                .contains("What if: remove net alarm/beep. Nothing is changed.")
                .contains("Without it: Blocked.")
                .contains("Would lose signal: port buzzer.")
                .contains("Newly open pads:")
                .contains("Open: " + NET);
    }

    @ParameterizedTest
    @CsvSource({
        "--what-if, remove cell nothing, “nothing”",
        "--what-if, remove net " + NET + ", itself",
        "--push-depth, 9, a number from 0 to 5",
        "--effort-ms, -1, a number from 0",
        "--corner, warm, '--corner: expected one of fast, slow, found “warm”; see padward ask'",
        "--engine, fast, 'expected one of own, reference, reference-guided, found “fast”'",
        "--effort-ms, 1e3, '--effort-ms: expected a whole number up to 2147483647, found “1e3”'",
        "--what-if, free it, --what-if: expected “remove cell NAME”"
    })
    void badOptionsAreReportedInOneLine(String option, String value, String expected) {
        Run run = ask("x0y5/pad[0]", option, value);
        assertThat(run.code()).isEqualTo(2);
        assertThat(run.err()).contains(expected);
        assertThat(run.err().strip()).doesNotContain("\n");
        assertThat(run.out()).isEmpty();
    }

    @Test
    void aLoadOnTheBoardIsACaution() {
        // Common practice, no source.
        assertThat(ask("J1.3").out())
                .contains("load U7 pin 4 is an input on this pad (board net MOTOR) and will follow")
                .contains("Make the load safe or disconnect it first");
        assertThat(ask("J1.2").out()).doesNotContain("follow the signal");
    }

    @Test
    void theEndOfANameSuggestsTheFullName() {
        Run tail = run("ask", "--design", DESIGN, "--net", "Sample[1]", "--pad", "j1.3");
        assertThat(tail.code()).isEqualTo(1);
        assertThat(tail.out()).contains("no free route from " + NET + " to pin D7 (MOTOR)");
        assertThat(run("ask", "--design", DESIGN, "--net", "sampl[1]", "--pad", "J1.3").err())
                .startsWith("padward: --net: expected the name of a net");
        assertThat(run("nets", "--design", DESIGN, "sample").out()).contains("*sample*");
    }

    @Test
    void faultsNameTheOptionAsItWasGiven() {
        assertThat(run("deskew", "a.csv", "-s", "b.csv", "-o", "c.csv", "--channel", "J1").err())
                .startsWith("padward: --channel: expected NAME=LINE, found “J1”");
        String[] bus = {"bus", "-d", DESIGN, "-n", NET, "-p", "header J1", "--register", "clk13"};
        assertThat(run(bus).err()).contains("--register: ").contains("nearest name is “clk12”");
    }

    @Test
    void surveysAreFilteredAndSorted() {
        Run bank = run("survey", "--design", DESIGN, "--net", NET, "--bank", "B", "--free");
        assertThat(bank.out()).contains("x7y2/pad[1]").doesNotContainPattern("port \\w");
        Run used = run("survey", "--design", DESIGN, "--net", NET, "--used", "--sort", "delay");
        assertThat(used.out()).contains("port motor").contains("nothing");
        Run wrong = run("survey", "--design", DESIGN, "--net", NET, "--bank", "Z");
        assertThat(wrong.code()).isEqualTo(2);
        assertThat(wrong.err()).contains("“Z”");
        Run header = run("survey", "--design", DESIGN, "--net", NET, "--header", "J1");
        assertThat(header.out()).contains("header J1");
        Run whatIf =
                run(
                        "survey",
                        "--design",
                        DESIGN,
                        "--net",
                        NET,
                        "--what-if",
                        "remove cell pump/run/motor_out",
                        "--used");
        assertThat(whatIf.out().lines().filter(l -> l.startsWith("x7y3/pad[0]")).findFirst())
                .hasValueSatisfying(l -> assertThat(l).contains("Takes a port's pad"));
    }

    /** A script must not take a failure for the answer that no way is free. */
    @ParameterizedTest
    @ValueSource(
            classes = {
                OutOfMemoryError.class,
                StackOverflowError.class,
                LinkageError.class,
                IllegalStateException.class
            })
    void aFailureHasAnExitStatusOfItsOwn(Class<? extends Throwable> kind) throws Exception {
        Throwable fault = kind.getConstructor().newInstance();
        StringWriter err = new StringWriter();
        CommandLine line = Padward.commandLine();
        line.addSubcommand("fail", new Failing(fault));
        line.setErr(new PrintWriter(err));
        // Handlers of exceptions go by the command that failed.
        CommandLine failing = line.getSubcommands().get("fail");
        failing.setErr(new PrintWriter(err));
        failing.setExecutionExceptionHandler(line.getExecutionExceptionHandler());
        assertThat(Padward.execute(line, "fail")).isEqualTo(ExitStatus.FAILED);
        boolean full = fault instanceof OutOfMemoryError;
        assertThat(err.toString())
                .startsWith("padward: ")
                .contains(full ? "-Xmx" : "padward: internal error");
        assertThat(err.toString().contains("\tat ")).isEqualTo(!full);
    }

    @CommandLine.Command(name = "fail")
    private record Failing(Throwable fault) implements Callable<Integer> {
        @Override
        public Integer call() throws Exception {
            if (fault instanceof Error error) {
                throw error;
            }
            throw (Exception) fault;
        }
    }
}
