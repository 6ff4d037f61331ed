package padward.cli.option;

import padward.base.BadInput;
import padward.breakout.ask.Question;
import padward.design.Design;
import padward.fabric.delay.Corner;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** The options that state a question: a net, a pad, a corner. */
public final class QuestionOption {
    /** What the option for the pad says of itself. */
    public static final String PAD_MEANING =
            "The pad: its name, package pin, port, board net or header pin (J1.3).";

    /** What the option for the corner says of itself. */
    public static final String CORNER_MEANING =
            "The corner at which the route has the shortest delay, fast or slow "
                    + "(${DEFAULT-VALUE}).";

    /** The corner when the option is not given, as it is written. */
    public static final String USUAL_CORNER = "slow";

    @Mixin private NetOption net;

    @Option(
            names = {"-p", "--pad"},
            required = true,
            paramLabel = "PAD",
            description = PAD_MEANING)
    private String pad;

    @Option(names = "--corner", defaultValue = USUAL_CORNER, description = CORNER_MEANING)
    private Corner corner;

    @Mixin private DriverOption driver;

    /** The question about a design. */
    public Question about(Design design) throws BadInput {
        return new Question(
                design, net.of(design), DesignOption.pad(design, pad), corner, driver.of(design));
    }
}
