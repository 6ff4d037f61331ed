package padward.cli.option;

import java.util.List;
import padward.base.BadInput;
import padward.breakout.group.GroupNames;
import padward.design.Design;
import padward.design.Net;
import picocli.CommandLine.Option;

/** The options that state a group: nets, and pads that may be used. */
public final class GroupOption {
    @Option(
            names = {"-n", "--nets"},
            split = ",",
            paramLabel = "NETS",
            description =
                    "Nets, or patterns with * and ?, separated by commas; may be repeated. The bits "
                            + "of a vector are taken in ascending order. A comma in a name is "
                            + "stated as ?.")
    private List<String> nets = List.of();

    @Option(
            names = {"-p", "--pads"},
            required = true,
            split = ",",
            paramLabel = "PADS",
            description =
                    "Pads that may be used, separated by commas: 'header NAME', 'bank NAME', "
                            + "'any', pads named as in ask, or patterns of such names with * and ?.")
    private List<String> pads = List.of();

    /** The nets as the user stated them. */
    public String netsText() {
        return String.join(" ", nets);
    }

    /** The pads as the user stated them. */
    public String padsText() {
        return String.join(",", pads);
    }

    public List<Net> nets(Design design) throws BadInput {
        return GroupNames.nets(design, nets, "--nets");
    }

    public List<Integer> pads(Design design) throws BadInput {
        return GroupNames.pads(design, pads, DesignOption::pad, "--pads");
    }
}
