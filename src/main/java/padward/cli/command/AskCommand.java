package padward.cli.command;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CancellationException;
import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.AnswerEdits;
import padward.breakout.ask.Asker;
import padward.breakout.ask.ClockForwarding;
import padward.breakout.ask.Question;
import padward.breakout.group.ForwardedClock;
import padward.breakout.survey.WhatIfReport;
import padward.breakout.text.AnswerText;
import padward.breakout.wanted.WantedResult;
import padward.change.Edit;
import padward.cli.batch.QuestionOptions;
import padward.cli.form.AnswerForm;
import padward.cli.form.Reports;
import padward.cli.option.DesignOption;
import padward.cli.output.AnswerTable;
import padward.cli.output.ExitStatus;
import padward.cli.output.SinkDelayTable;
import padward.cli.output.WhatIfTable;
import padward.cli.wanted.WantedReport;
import padward.design.Design;
import padward.format.form.JsonText;
import padward.route.search.SearchEngineKind;
import padward.unblock.why.SearchLimits;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code ask}: one net, one pad. */
@Command(
        name = "ask",
        mixinStandardHelpOptions = true,
        description =
                "Finds a route from a net to a pad, or reports what blocks it. With --batch, "
                        + "answers any number of questions in one run.",
        footer = {
            "",
            "Example:",
            "  padward ask --design fixtures/small/only.design.json \\",
            "      --net 'pump/level/sample[1]' --pad J2.1 --corner slow",
            "  padward ask --design fixtures/small/only.design.json \\",
            "      --batch fixtures/small/questions.csv --brief"
        })
public final class AskCommand implements Callable<Integer> {
    private static final String ENGINE = "own";
    private static final String PUSH_DEPTH = "1";
    private static final String EFFORT_MS = "600";

    @Mixin private DesignOption design;
    @Mixin private QuestionOptions question;
    @Spec private CommandSpec spec;

    @Option(
            names = "--engine",
            defaultValue = ENGINE,
            description =
                    "Search engine: own, reference (JGraphT's Dijkstra) or reference-guided"
                            + " (JGraphT's A*). The reference engines are slower and find the same"
                            + " delays.")
    private SearchEngineKind engine;

    @Option(names = "--json", description = "Prints the answer as JSON.")
    private boolean json;

    @Option(
            names = "--what-if",
            paramLabel = "EDIT",
            description =
                    "Answers as if something were removed: 'remove cell NAME', 'remove net NAME', "
                            + "'disconnect port NAME'. May be repeated. Changes nothing.")
    private List<String> whatIf = List.of();

    @Option(
            names = "--push-depth",
            defaultValue = PUSH_DEPTH,
            description =
                    "How many levels of other nets a move may reroute in turn, 0 to 5 "
                            + "(${DEFAULT-VALUE}).")
    private int pushDepth;

    @Option(
            names = "--effort-ms",
            defaultValue = EFFORT_MS,
            description =
                    "Time limit for proving the minimum number of obstacles, milliseconds "
                            + "(${DEFAULT-VALUE}).")
    private int effort;

    @Option(
            names = "--within-ms",
            paramLabel = "MS",
            description =
                    "Stops the search after this many milliseconds and reports the question as "
                            + "undecided. Without it, the search runs to the end.")
    private Long withinMillis;

    /** Where it prints, when no command line says so. */
    private Optional<PrintWriter> out = Optional.empty();

    /** The command with the usual values for all options but these, without a command line. */
    public static AskCommand plain(
            Path design, String net, String pad, boolean json, PrintWriter out, Progress progress) {
        AskCommand command = new AskCommand();
        command.design = DesignOption.of(design, progress);
        command.question = QuestionOptions.of(net, pad);
        command.engine = SearchEngineKind.valueOf(ENGINE.toUpperCase(Locale.ROOT));
        command.json = json;
        command.pushDepth = Integer.parseInt(PUSH_DEPTH);
        command.effort = Integer.parseInt(EFFORT_MS);
        command.out = Optional.of(out);
        return command;
    }

    private PrintWriter out() {
        return out.isPresent() ? out.get() : spec.commandLine().getOut();
    }

    @Override
    public Integer call() throws BadInput {
        question.check(whatIf);
        SearchLimits limits = limits();
        Design read = design.readToAsk(question.corner());
        if (question.isBatch()) {
            return question.answerAll(read, engine, limits, this::progress);
        }
        Optional<WantedResult> former = question.findFormer(read, design);
        if (former.isPresent() && former.get().net().isEmpty()) {
            return printGone(former.get());
        }
        Question asked =
                former.isPresent()
                        ? question.about(read, former.get().net().orElseThrow())
                        : question.about(read);
        PrintWriter to = out();
        try {
            return answer(asked, limits, to);
        } catch (CancellationException stopped) {
            if (withinMillis == null) {
                throw stopped;
            }
            printUndecided(asked, to);
            return ExitStatus.NOT_OPEN;
        } finally {
            to.flush();
        }
    }

    /** The net was there before the last run, and is not now. */
    private int printGone(WantedResult former) {
        PrintWriter to = out();
        if (json) {
            WantedReport report =
                    new WantedReport(design.file().toString(), Optional.empty(), List.of(former));
            to.println(JsonText.pretty(WantedReport.form(), report));
        } else {
            to.println(
                    "Gone: net "
                            + former.wanted().net()
                            + " is not in this design; neither its name nor its driver is there.");
            if (!former.near().isEmpty()) {
                to.println();
                to.println("Registers around it that are still there:");
                former.near().forEach(n -> to.println("  " + WantedReport.words(n)));
            }
        }
        to.flush();
        return ExitStatus.NOT_OPEN;
    }

    private Progress progress() {
        return withinMillis == null ? design.progress() : design.progress().within(withinMillis);
    }

    private int answer(Question asked, SearchLimits limits, PrintWriter out) throws BadInput {
        if (!whatIf.isEmpty()) {
            Answer after = printWhatIf(asked, limits, out);
            return after instanceof Answer.Open ? ExitStatus.DONE : ExitStatus.NOT_OPEN;
        }
        Asker asker = new Asker(asked.design().fabric(), engine);
        Answer answer = asker.explained(asked, limits, progress());
        if (json) {
            out.println(JsonText.pretty(AnswerForm.answer(), AnswerForm.Given.of(answer)));
        } else {
            print(answer, out);
        }
        return answer instanceof Answer.Open ? ExitStatus.DONE : ExitStatus.NOT_OPEN;
    }

    private SearchLimits limits() throws BadInput {
        if (pushDepth < 0 || pushDepth > 5) {
            throw new BadInput("--push-depth", "", "a number from 0 to 5", "" + pushDepth);
        }
        if (effort < 0) {
            throw new BadInput("--effort-ms", "", "a number from 0", "" + effort);
        }
        if (withinMillis != null && withinMillis < 0) {
            throw new BadInput("--within-ms", "", "a number from 0", "" + withinMillis);
        }
        SearchLimits usual = SearchLimits.USUAL;
        return new SearchLimits(usual.labels(), effort, usual.alternatives(), pushDepth);
    }

    /** Neither a route nor its absence is known, and that is what is reported. */
    private void printUndecided(Question asked, PrintWriter out) {
        String sentence =
                "Undecided: the search was stopped after "
                        + withinMillis
                        + " ms, so it is not known whether "
                        + asked.net().name()
                        + " has a route to pad "
                        + asked.padValue().name()
                        + ". Allow more time with --within-ms.";
        out.println(
                json
                        ? JsonText.pretty(
                                AnswerForm.answer(), AnswerForm.Given.undecided(asked, sentence))
                        : sentence);
    }

    private void print(Answer answer, PrintWriter out) {
        out.println(AnswerText.sentence(answer));
        AnswerTable.print(answer, out);
        if (answer instanceof Answer.FreeRoute free) {
            printTiming(free, out);
        } else {
            ForwardedClock.hint(answer.question(), false, design.progress())
                    .ifPresent(out::println);
        }
    }

    /** Whether a clock is forwarded, and which sinks the new branch slows down. */
    private void printTiming(Answer.FreeRoute open, PrintWriter out) {
        Question question = open.question();
        out.println();
        if (question.net().clock()) {
            ClockForwarding clock = ClockForwarding.of(question, open.route(), design.progress());
            out.println(clock.toText());
            ForwardedClock.hint(question, clock.route().isPresent(), design.progress())
                    .ifPresent(out::println);
        }
        if (!AnswerEdits.isThere(open)) {
            SinkDelayTable.print(question.design(), AnswerEdits.of(open), out);
        }
    }

    private Answer printWhatIf(Question question, SearchLimits limits, PrintWriter out)
            throws BadInput {
        List<Edit> edits = WhatIfTable.parse(question.design(), whatIf);
        WhatIfReport report;
        try {
            report = WhatIfReport.of(question, edits, limits, progress());
        } catch (IllegalArgumentException fault) {
            throw new BadInput("--what-if", "", "edits that fit the design", fault.getMessage());
        }
        if (json) {
            out.println(JsonText.pretty(Reports.whatIf(), report));
        } else {
            WhatIfTable.print(report, out);
            print(report.after(), out);
        }
        return report.after();
    }
}
