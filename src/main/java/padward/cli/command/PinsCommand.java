package padward.cli.command;

import padward.base.BadInput;
import padward.base.Progress;
import padward.cli.form.JsonText;
import padward.cli.form.Reports;
import padward.cli.output.ExitStatus;
import padward.cli.output.TextTable;
import padward.fabric.Fabric;
import padward.format.bareboard.BoardNets;
import padward.format.bsdl.BsdlReader;
import padward.format.bsdl.PackagePins;
import padward.format.bsdl.PinCheck;
import padward.format.fabric.FabricReader;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;

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
            "Exit status: 0 listed, or no difference; 1 pads differ; 2 bad input.",
            "",
            "Example:",
            "  padward pins --bsdl fixtures/package/larch-8.bsdl \\",
            "      --fabric fixtures/small/only.fabric.json"
        })
public final class PinsCommand implements Callable<Integer> {
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
                    "The board's net list, as board reads it: the list then has the board's net on "
                            + "each pin.")
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
        PackagePins pins = BsdlReader.read(bsdl, pinMap, Progress.NONE);
        PrintWriter out = spec.commandLine().getOut();
        Map<String, String> onBoard =
                nets == null ? Map.of() : BoardNets.read(nets, Progress.NONE).netsOf(chip);
        if (json) {
            return printJson(pins, onBoard, out);
        }
        int status = fabric == null ? list(pins, onBoard, out) : compare(pins, out);
        out.flush();
        return status;
    }

    private int printJson(PackagePins pins, Map<String, String> onBoard, PrintWriter out)
            throws BadInput {
        List<String> differences = new ArrayList<>();
        if (fabric != null) {
            Fabric read = FabricReader.read(fabric, Progress.NONE);
            differences.addAll(PinCheck.differences(read, pins));
        }
        Set<String> left = new TreeSet<>(onBoard.keySet());
        pins.pins().forEach(p -> left.remove(p.pin()));
        left.forEach(p -> differences.add("the package has no pin " + p + ", but the board has"));
        Reports.Pins report =
                new Reports.Pins(
                        pins.entity(),
                        pins.map(),
                        pins.pins().stream()
                                .map(
                                        p ->
                                                new Reports.Pins.One(
                                                        p.pin(),
                                                        p.port(),
                                                        p.mode().label(),
                                                        onBoard.getOrDefault(p.pin(), "")))
                                .toList(),
                        differences);
        out.println(JsonText.pretty(Reports.Pins.form(), report));
        out.flush();
        return differences.isEmpty() ? ExitStatus.DONE : ExitStatus.NOT_OPEN;
    }

    private int list(PackagePins pins, Map<String, String> onBoard, PrintWriter out) {
        out.println(pins.entity() + ", pin map " + pins.map());
        if (nets == null) {
            TextTable table = new TextTable("pin", "port", "mode");
            pins.pins().forEach(p -> table.row(p.pin(), p.port(), p.mode().label()));
            table.print(out);
            return ExitStatus.DONE;
        }
        TextTable table = new TextTable("pin", "port", "mode", "board's net");
        Set<String> left = new TreeSet<>(onBoard.keySet());
        for (PackagePins.Pin pin : pins.pins()) {
            left.remove(pin.pin());
            table.row(
                    pin.pin(), pin.port(), pin.mode().label(), onBoard.getOrDefault(pin.pin(), ""));
        }
        table.print(out);
        left.forEach(pin -> out.println("The package has no pin " + pin + ", but the board has."));
        return left.isEmpty() ? ExitStatus.DONE : ExitStatus.NOT_OPEN;
    }

    private int compare(PackagePins pins, PrintWriter out) throws BadInput {
        Fabric read = FabricReader.read(fabric, Progress.NONE);
        List<String> differences = PinCheck.differences(read, pins);
        differences.forEach(out::println);
        List<PackagePins.Pin> left = PinCheck.withoutPad(read, pins);
        if (!left.isEmpty()) {
            out.println(
                    left.size()
                            + " signal pins without a pad: "
                            + left.stream()
                                    .limit(20)
                                    .map(p -> p.pin() + " (" + p.port() + ")")
                                    .collect(Collectors.joining(", "))
                            + (left.size() > 20 ? ", …" : ""));
        }
        out.println(
                differences.isEmpty()
                        ? "the pads agree with " + pins.entity()
                        : differences.size() + " pads differ");
        return differences.isEmpty() ? ExitStatus.DONE : ExitStatus.NOT_OPEN;
    }
}
