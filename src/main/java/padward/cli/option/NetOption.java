package padward.cli.option;

import padward.base.BadInput;
import padward.design.Design;
import padward.design.Net;
import picocli.CommandLine.Option;

/** The option that names one net. */
public final class NetOption {
    /** What the option says of itself. */
    public static final String MEANING =
            "The net's name, or a pattern with * and ? that matches only one.";

    @Option(
            names = {"-n", "--net"},
            required = true,
            paramLabel = "NET",
            description = MEANING)
    private String net;

    /** The net of a design. */
    public Net of(Design design) throws BadInput {
        return DesignOption.net("--net", design, net);
    }
}
