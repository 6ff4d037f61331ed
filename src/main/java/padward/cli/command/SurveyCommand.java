package padward.cli.command;

import java.io.PrintWriter;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.stream.IntStream;
import padward.base.BadInput;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Cautions;
import padward.breakout.survey.OfferedPads;
import padward.breakout.survey.PadRank;
import padward.breakout.survey.Survey;
import padward.breakout.text.AnswerText;
import padward.cli.form.AnswerForm;
import padward.cli.form.Reports;
import padward.cli.option.DesignOption;
import padward.cli.option.LimitOption;
import padward.cli.option.ListFormOption;
import padward.cli.option.NetOption;
import padward.cli.option.PadFilterOption;
import padward.cli.output.ExitStatus;
import padward.cli.output.TextTable;
import padward.cli.output.WhatIfTable;
import padward.design.Design;
import padward.fabric.Pad;
import padward.fabric.delay.Corner;
import padward.format.form.JsonText;
import padward.route.search.SearchEngineKind;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code survey}: one net, all pads. */
@Command(
        name = "survey",
        mixinStandardHelpOptions = true,
        description =
                "Ranks all pads for one net by their price: free pads with a place for a lead, free"
                        + " pads, pads whose port loses them while nothing listens, pads whose"
                        + " obstacles may lose function, pads on which something on the board follows,"
                        + " pads that something drives; within these by what the design would lose, by"
                        + " the number of obstacles, and by delay. Pads without a route come last.",
        footer = {
            "",
            "Example:",
            "  padward survey --design fixtures/small/only.design.json --net 'pump/level/sample[1]'"
        })
public final class SurveyCommand implements Callable<Integer> {
    @Mixin private DesignOption design;
    @Mixin private NetOption net;
    @Mixin private LimitOption limit;
    @Mixin private PadFilterOption filter;
    @Mixin private ListFormOption form;
    @Spec private CommandSpec spec;

    @Option(
            names = "--corner",
            defaultValue = "slow",
            description =
                    "The corner at which delays are compared, fast or slow (${DEFAULT-VALUE}).")
    private Corner corner;

    @Option(
            names = "--sort",
            paramLabel = "KEY",
            description = "Ranks by this first: price, function, obstacles or delay.")
    private Survey.Key sort;

    @Option(
            names = "--what-if",
            paramLabel = "EDIT",
            description = "Surveys as if something were removed; see ask.")
    private List<String> whatIf = List.of();

    @Option(
            names = "--all-pads",
            description =
                    "Also pads that the package does not connect, and those for configuration, "
                            + "testing or a reference voltage.")
    private boolean allPads;

    @Override
    public Integer call() throws BadInput {
        Design read = WhatIfTable.apply(design.readToAsk(corner), whatIf);
        filter.check(read);
        Survey survey =
                Survey.of(
                                read,
                                net.of(read),
                                pads(read),
                                corner,
                                SearchEngineKind.OWN,
                                design.progress())
                        .only(a -> filter.accepts(read, a.question().pad()));
        if (sort != null) {
            survey = survey.sortedBy(sort);
        }
        PrintWriter out = spec.commandLine().getOut();
        if (form.isJson()) {
            printJson(survey, out);
        } else {
            printRemarks(read, survey, form.print(table(read, survey), spec.commandLine()));
        }
        out.flush();
        boolean anyOpen = survey.answers().stream().anyMatch(a -> a instanceof Answer.Open);
        return anyOpen ? ExitStatus.DONE : ExitStatus.NOT_OPEN;
    }

    private List<Integer> pads(Design read) {
        return allPads
                ? IntStream.range(0, read.fabric().pads().size()).boxed().toList()
                : OfferedPads.of(read.fabric());
    }

    private void printJson(Survey survey, PrintWriter out) throws BadInput {
        Reports.Ranked report =
                new Reports.Ranked(
                        survey.net().name(),
                        survey.corner(),
                        limit.start(survey.answers()).stream()
                                .map(AnswerForm.Given::ranked)
                                .toList(),
                        limit.leftOut(survey.answers().size()));
        out.println(JsonText.pretty(Reports.Ranked.form(), report));
    }

    private TextTable table(Design design, Survey survey) throws BadInput {
        TextTable table =
                new TextTable(
                        "pad",
                        "pin",
                        "on the board",
                        "answer",
                        "at the pin, rated load",
                        "replaces port",
                        "blocked by",
                        "would lose signal",
                        "rank");
        for (Answer answer : limit.start(survey.answers())) {
            Pad pad = answer.question().padValue();
            table.row(
                    pad.name(),
                    pad.packagePin(),
                    AnswerText.onBoard(answer.question()),
                    AnswerText.word(answer),
                    delay(answer),
                    design.findPortOn(answer.question().pad())
                            .map(p -> "port " + p.name())
                            .orElse(""),
                    AnswerText.obstacleNames(answer),
                    AnswerText.wouldLose(answer),
                    PadRank.of(answer).reason());
        }
        return table;
    }

    private void printRemarks(Design design, Survey survey, PrintWriter out) {
        limit.remark(survey.answers().size()).ifPresent(out::println);
        if (survey.answers().isEmpty()) {
            out.println("No pads match the filter.");
        }
        out.println();
        out.println(
                "Would lose signal: endpoints that lose their signal if the obstacle cannot be "
                        + "moved; ask reports whether it can.");
        out.println("Before driving a pad, read its cautions with ask. " + Cautions.FOOTER);
        String leftOut = allPads ? "" : OfferedPads.leftOut(design.fabric());
        if (!leftOut.isEmpty()) {
            out.println("Pads left out: " + leftOut + "; --all-pads shows them.");
        }
    }

    private static String delay(Answer answer) {
        return answer.findRoute().map(w -> w.total().toText()).orElse("");
    }
}
