package padward.cli;

import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import java.io.PrintWriter;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.Answer;
import padward.breakout.AnswerText;
import padward.breakout.Survey;
import padward.design.Attachment;
import padward.design.Design;
import padward.fabric.Corner;
import padward.fabric.Pad;
import padward.route.Engine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code survey}: one net, all pads. */
@Command(
        name = "survey",
        mixinStandardHelpOptions = true,
        description = {
            "Ranks all pads for one net. Pads that the board may drive, or that the design reads,",
            "stand behind the others; within each, open ones before blocked ones, quick before slow."
        },
        footer = {
            "",
            "Example:",
            "  padward survey --design fixtures/small/only.design.json --net 'pump/level/sample[1]'"
        })
final class SurveyCommand implements Callable<Integer> {
    @Mixin private DesignOption design;
    @Spec private CommandSpec spec;

    @Option(
            names = {"-n", "--net"},
            required = true,
            paramLabel = "NET",
            description = "The net's name, or a pattern with * and ? that fits only one.")
    private String net;

    @Option(
            names = "--corner",
            defaultValue = "slow",
            description = "The corner that ranks delays: ${COMPLETION-CANDIDATES}.")
    private Corner corner;

    @Option(names = "--json", description = "Prints the answers as JSON, best first.")
    private boolean json;

    @Override
    public Integer call() throws BadInput {
        Design read = design.read();
        Survey survey =
                Survey.of(read, DesignOption.net(read, net), corner, Engine.OWN, Progress.NONE);
        PrintWriter out = spec.commandLine().getOut();
        if (json) {
            printJson(survey, out);
        } else {
            printTable(read, survey, out);
        }
        out.flush();
        boolean anyOpen = survey.answers().stream().anyMatch(a -> a instanceof Answer.Open);
        return anyOpen ? Padward.DONE : Padward.NOT_OPEN;
    }

    private static void printJson(Survey survey, PrintWriter out) {
        JsonObject result = new JsonObject();
        result.addProperty("format", "padward-survey/1");
        result.addProperty("net", survey.net().name());
        result.addProperty("corner", survey.corner().label());
        JsonArray answers = new JsonArray();
        survey.answers().forEach(a -> answers.add(AnswerJson.object(a)));
        result.add("answers", answers);
        out.println(AnswerJson.text(result));
    }

    private static void printTable(Design design, Survey survey, PrintWriter out) {
        TextTable table =
                new TextTable(
                        "pad", "pin", "answer", "delay", "gives up", "in the way", "on the board");
        for (Answer answer : survey.answers()) {
            Pad pad = answer.question().padValue();
            table.row(
                    pad.name(),
                    pad.packagePin(),
                    AnswerText.word(answer),
                    delay(answer),
                    design.findPortOn(answer.question().pad())
                            .map(p -> "port " + p.name())
                            .orElse(""),
                    obstacles(answer),
                    board(design, answer.question().pad()));
        }
        table.print(out);
        out.println();
        out.println(
                "Before driving a pad, read its cautions with ask; the board's documents decide.");
    }

    private static String delay(Answer answer) {
        if (answer instanceof Answer.Open open) {
            return open.way().total().toText();
        }
        return answer instanceof Answer.Blocked blocked ? blocked.way().total().toText() : "";
    }

    private static String obstacles(Answer answer) {
        return answer instanceof Answer.Blocked blocked
                ? blocked.obstacles().stream()
                        .map(o -> o.occupant().name())
                        .collect(Collectors.joining(", "))
                : "";
    }

    private static String board(Design design, int pad) {
        return design.board()
                .findWiring(pad)
                .map(
                        w ->
                                w.attachments().stream()
                                        .map(Attachment::toText)
                                        .collect(Collectors.joining(", ")))
                .orElse("");
    }
}
