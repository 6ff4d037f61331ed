package padward.bench;

import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.breakout.survey.Survey;
import padward.design.Design;
import padward.design.Net;
import padward.design.PadNames;
import padward.fabric.delay.Corner;
import padward.format.design.DesignReader;
import padward.route.search.SearchEngineKind;

import java.nio.file.Path;
import java.util.concurrent.TimeUnit;

/**
 * One question, and one survey, on the workbench example: our search against JGraphT's Dijkstra.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 5, time = 2)
public class AskBench {
    /** Pads: an open one near by, an open one across the chip, and a blocked one. */
    @Param({"E49", "S28", "S7"})
    public String pad;

    private Asker own;
    private Asker reference;
    private Question question;

    /** Reads the example. */
    @Setup
    public void read() throws BadInput {
        Design design =
                DesignReader.read(Path.of("fixtures/workbench/design.json.gz"), Progress.NONE);
        Net net = design.findNet("valve/guard/acc[3]").orElseThrow();
        question = new Question(design, net, PadNames.find(design, pad).get(0), Corner.SLOW);
        own = new Asker(design.fabric(), SearchEngineKind.OWN);
        reference = new Asker(design.fabric(), SearchEngineKind.REFERENCE);
    }

    /** The project's own search. */
    @Benchmark
    public Answer askOwn() {
        return own.answer(question, Progress.NONE);
    }

    /** JGraphT's Dijkstra on the same graph. */
    @Benchmark
    public Answer askReference() {
        return reference.answer(question, Progress.NONE);
    }

    /** All pads by sweeps. */
    @Benchmark
    public Survey survey() {
        return Survey.of(question.design(), question.net(), Corner.SLOW, SearchEngineKind.OWN, Progress.NONE);
    }
}
