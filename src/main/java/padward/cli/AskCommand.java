package padward.cli;

import java.io.PrintWriter;
import java.util.concurrent.Callable;
import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.Answer;
import padward.breakout.AnswerText;
import padward.breakout.Asker;
import padward.breakout.Question;
import padward.design.Design;
import padward.fabric.Corner;
import padward.route.Engine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code ask}: one net, one pad. */
@Command(
        name = "ask",
        mixinStandardHelpOptions = true,
        description = "Says how a net gets out to a pad, or what stands in the way.",
        footer = {
            "",
            "Example:",
            "  padward ask --design fixtures/small/only.design.json \\",
            "      --net 'pump/level/sample[1]' --pad J1.3 --corner slow"
        })
final class AskCommand implements Callable<Integer> {
    @Mixin private DesignOption design;
    @Spec private CommandSpec spec;

    @Option(
            names = {"-n", "--net"},
            required = true,
            paramLabel = "NET",
            description = "The net's name, or a pattern with * and ? that fits only one.")
    private String net;

    @Option(
            names = {"-p", "--pad"},
            required = true,
            paramLabel = "PAD",
            description = "The pad: its name, package pin, port, board net or header pin (J1.3).")
    private String pad;

    @Option(
            names = "--corner",
            defaultValue = "slow",
            description =
                    "The corner at which the way shall be the quickest, fast or slow (${DEFAULT-VALUE}).")
    private Corner corner;

    @Option(
            names = "--engine",
            defaultValue = "own",
            description = "The search: own, or reference (JGraphT's; slower, equal delays).")
    private Engine engine;

    @Option(names = "--json", description = "Prints the answer as JSON.")
    private boolean json;

    @Override
    public Integer call() throws BadInput {
        Design read = design.read();
        Question question =
                new Question(
                        read, DesignOption.net(read, net), DesignOption.pad(read, pad), corner);
        Answer answer = new Asker(read.fabric(), engine).answer(question, Progress.NONE);
        PrintWriter out = spec.commandLine().getOut();
        if (json) {
            out.println(AnswerJson.text(answer));
        } else {
            out.println(AnswerText.sentence(answer));
            AnswerTable.print(answer, out);
        }
        out.flush();
        return answer instanceof Answer.Open ? Padward.DONE : Padward.NOT_OPEN;
    }
}
