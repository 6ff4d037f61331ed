package padward.cli.command;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import padward.base.BadInput;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Cautions;
import padward.breakout.ask.Question;
import padward.breakout.text.AnswerText;
import padward.cli.form.AnswerForm;
import padward.cli.form.Reports;
import padward.cli.option.DesignOption;
import padward.cli.output.ExitStatus;
import padward.cli.output.TextTable;
import padward.design.Design;
import padward.design.NameLookup;
import padward.design.Net;
import padward.fabric.delay.Corner;
import padward.format.form.JsonText;
import padward.format.tables.QuestionTable;
import padward.route.search.SearchEngineKind;
import padward.unblock.why.SearchLimits;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code ask-all}: many questions about one design, which is read once. */
@Command(
        name = "ask-all",
        mixinStandardHelpOptions = true,
        description =
                "Answers every question of a table (CSV) with the columns net and pad. The design"
                        + " is read once, which on a large device takes longer than the answers.",
        footer = {
            "",
            "Example:",
            "  padward ask-all --design fixtures/small/only.design.json \\",
            "      --questions fixtures/small/questions.csv"
        })
public final class AskAllCommand implements Callable<Integer> {
    @Mixin private DesignOption design;
    @Spec private CommandSpec spec;

    @Option(
            names = {"-q", "--questions"},
            required = true,
            paramLabel = "FILE",
            description = "The table of questions, .csv or .tsv.")
    private Path questions;

    @Option(
            names = "--corner",
            defaultValue = "slow",
            description =
                    "The corner at which routes have the shortest delay, fast or slow "
                            + "(${DEFAULT-VALUE}).")
    private Corner corner;

    @Option(names = "--json", description = "Prints the answers as JSON, in the table's order.")
    private boolean json;

    @Override
    public Integer call() throws BadInput {
        Design read = design.readToAsk(corner);
        List<Question> asked = new ArrayList<>();
        for (QuestionTable.Row row : QuestionTable.read(questions)) {
            asked.add(question(read, row));
        }
        Asker asker = new Asker(read.fabric(), SearchEngineKind.OWN);
        List<Answer> answers = new ArrayList<>();
        for (Question question : asked) {
            answers.add(asker.explained(question, SearchLimits.USUAL, design.progress()));
        }
        PrintWriter out = spec.commandLine().getOut();
        if (json) {
            printJson(answers, out);
        } else {
            printTable(answers, out);
        }
        out.flush();
        boolean allOpen = answers.stream().allMatch(a -> a instanceof Answer.Open);
        return allOpen ? ExitStatus.DONE : ExitStatus.NOT_OPEN;
    }

    /** All rows are looked up before the first is answered, so that a wrong name costs no wait. */
    private Question question(Design read, QuestionTable.Row row) throws BadInput {
        Net net;
        try {
            net = DesignOption.net("", read, row.net());
        } catch (BadInput fault) {
            throw inTable(row, "net", fault);
        }
        try {
            return new Question(read, net, NameLookup.requirePad(read, row.pad(), ""), corner);
        } catch (BadInput fault) {
            throw inTable(row, "pad", fault);
        }
    }

    private BadInput inTable(QuestionTable.Row row, String column, BadInput fault) {
        return new BadInput(
                questions.toString(), row.place(column), fault.expected(), fault.found());
    }

    private static void printJson(List<Answer> answers, PrintWriter out) {
        Reports.Answers report =
                new Reports.Answers(answers.stream().map(AnswerForm.Given::of).toList());
        out.println(JsonText.pretty(Reports.Answers.form(), report));
    }

    private static void printTable(List<Answer> answers, PrintWriter out) {
        TextTable table =
                new TextTable(
                        "net",
                        "pad",
                        "pin",
                        "answer",
                        "at the pin, rated load",
                        "blocked by",
                        "loses signal");
        for (Answer answer : answers) {
            Question question = answer.question();
            table.row(
                    question.net().name(),
                    question.padValue().name(),
                    question.padValue().packagePin(),
                    AnswerText.word(answer),
                    answer.findRoute().map(r -> r.total().toText()).orElse(""),
                    AnswerText.obstacleNames(answer),
                    AnswerText.wouldLose(answer));
        }
        table.print(out);
        out.println();
        out.println("Before driving a pad, read its cautions with ask. " + Cautions.FOOTER);
    }
}
