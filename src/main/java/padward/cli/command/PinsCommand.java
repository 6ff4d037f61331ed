package padward.cli.command;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import padward.base.BadInput;
import padward.cli.form.Reports;
import padward.cli.manners.ConsoleProgress;
import padward.cli.output.ExitStatus;
import padward.cli.output.TextTable;
import padward.fabric.Fabric;
import padward.format.bareboard.BoardNets;
import padward.format.bsdl.BsdlReader;
import padward.format.bsdl.PackagePins;
import padward.format.bsdl.PinCheck;
import padward.format.fabric.FabricReader;
import padward.format.form.JsonText;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code pins}: the pins of a package, and whether a fabric's pads agree with them. */
@Command(
        name = "pins",
        mixinStandardHelpOptions = true,
        description =
                "Lists the pins of a package from a BSDL file (IEEE 1149.1), with ports and modes."
                        + " With a fabric, lists instead which of its pads differ. To fill in the pins:"
                        + " import --bsdl.",
        footer = {
            "",
            "Exit status: 0 listed, or no difference; 1 pads or the board differ; 2 bad input.",
            "",
            "Example:",
            "  padward pins --bsdl fixtures/package/larch-8.bsdl \\",
            "      --fabric fixtures/small/only.fabric.json"
        })
public final class PinsCommand implements Callable<Integer> {
    private static final int MOST_NAMED = 20;

    @Spec private CommandSpec spec;

    @Option(names = "--bsdl", required = true, paramLabel = "FILE", description = "The BSDL file.")
    private Path bsdl;

    @Option(
            names = "--pin-map",
            defaultValue = "",
            paramLabel = "NAME",
            description = "The pin map of the BSDL file to use, if it has several.")
    private String pinMap;

    @Option(names = "--fabric", paramLabel = "FILE", description = "The fabric to compare with.")
    private Path fabric;

    @Option(
            names = "--nets",
            paramLabel = "FILE",
            description =
                    "The board's net list, as board reads it: the list then has the board's net on"
                            + " each pin, and a pin that only the board has is a difference.")
    private Path nets;

    @Option(
            names = "--chip",
            paramLabel = "PART",
            description = "The chip's reference designator in that net list.")
    private String chip;

    @Option(names = "--json", description = "Prints the pins and the differences as JSON.")
    private boolean json;

    @Override
    public Integer call() throws BadInput {
        if ((nets == null) != (chip == null)) {
            throw new BadInput("--nets", "", "--chip together with it", "only one of them");
        }
        PackagePins pins = BsdlReader.read(bsdl, pinMap, ConsoleProgress.of(spec));
        Reports.Pins report = compare(pins);
        PrintWriter out = spec.commandLine().getOut();
        if (json) {
            out.println(JsonText.pretty(Reports.Pins.form(), report));
        } else if (fabric == null) {
            printPins(report, out);
        } else {
            printDifferences(report, out);
        }
        out.flush();
        return report.differences().isEmpty() ? ExitStatus.DONE : ExitStatus.NOT_OPEN;
    }

    /** The pins, and how the fabric and the board differ from them, where they are given. */
    private Reports.Pins compare(PackagePins pins) throws BadInput {
        Map<String, String> onBoard =
                nets == null
                        ? Map.of()
                        : BoardNets.read(nets, ConsoleProgress.of(spec)).netsOf(chip);
        List<String> differences = new ArrayList<>();
        List<String> withoutPad = new ArrayList<>();
        if (fabric != null) {
            Fabric read = FabricReader.read(fabric, ConsoleProgress.of(spec));
            differences.addAll(PinCheck.differences(read, pins));
            PinCheck.withoutPad(read, pins)
                    .forEach(p -> withoutPad.add(p.pin() + " (" + p.port() + ")"));
        }
        Set<String> left = new TreeSet<>(onBoard.keySet());
        pins.pins().forEach(p -> left.remove(p.pin()));
        left.forEach(p -> differences.add("the package has no pin " + p + ", but the board has"));
        List<Reports.Pins.One> all =
                pins.pins().stream()
                        .map(
                                p ->
                                        new Reports.Pins.One(
                                                p.pin(),
                                                p.port(),
                                                p.mode().label(),
                                                onBoard.getOrDefault(p.pin(), "")))
                        .toList();
        return new Reports.Pins(pins.entity(), pins.map(), all, differences, withoutPad);
    }

    private void printPins(Reports.Pins report, PrintWriter out) {
        out.println(report.entity() + ", pin map " + report.pinMap());
        if (nets == null) {
            TextTable table = new TextTable("pin", "port", "mode");
            report.pins().forEach(p -> table.row(p.pin(), p.port(), p.mode()));
            table.print(out);
        } else {
            TextTable table = new TextTable("pin", "port", "mode", "board's net");
            report.pins().forEach(p -> table.row(p.pin(), p.port(), p.mode(), p.boardNet()));
            table.print(out);
        }
        report.differences().forEach(out::println);
    }

    private void printDifferences(Reports.Pins report, PrintWriter out) {
        report.differences().forEach(out::println);
        List<String> left = report.withoutPad();
        if (!left.isEmpty()) {
            out.println(
                    left.size()
                            + " signal pins without a pad: "
                            + String.join(", ", left.subList(0, Math.min(MOST_NAMED, left.size())))
                            + (left.size() > MOST_NAMED ? ", …" : ""));
        }
        int differences = report.differences().size();
        String compared = nets == null ? "the pads agree" : "the pads and the board agree";
        out.println(
                switch (differences) {
                    case 0 -> compared + " with " + report.entity();
                    case 1 -> "1 difference";
                    default -> differences + " differences";
                });
    }
}
