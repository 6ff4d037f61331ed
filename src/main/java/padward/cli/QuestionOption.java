package padward.cli;

import padward.base.BadInput;
import padward.breakout.Question;
import padward.design.Design;
import padward.fabric.Corner;
import picocli.CommandLine.Option;

/** The options that state a question: a net, a pad, a corner. */
final class QuestionOption {
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

    /** The question about a design. */
    Question about(Design design) throws BadInput {
        return new Question(
                design, DesignOption.net(design, net), DesignOption.pad(design, pad), corner);
    }
}
