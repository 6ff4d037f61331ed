package padward.cli.command;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import padward.base.BadInput;
import padward.base.Progress;
import padward.cli.manners.ConsoleProgress;
import padward.cli.option.DesignOption;
import padward.cli.option.Outputs;
import padward.cli.output.ExitStatus;
import padward.cli.output.TextTable;
import padward.design.Design;
import padward.design.Netlist;
import padward.design.board.Board;
import padward.fabric.Fabric;
import padward.filework.NetlistFiles;
import padward.place.PlaceRouteOptions;
import padward.place.PlaceRouteResult;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code place-route}: a netlist of another tool, placed and routed on a fabric. */
@Command(
        name = "place-route",
        mixinStandardHelpOptions = true,
        description =
                "Packs, places and routes a netlist on a fabric, and writes the design. "
                        + "Netlists are structural Verilog, or EDIF 2 0 0 if the name ends in .edf, "
                        + ".edif or .edn; a mapping states the kind of cell of each of their types "
                        + "(docs/your-own-design.md).",
        footer = {
            "",
            "Exit status: 0 everything fits, 1 something does not fit, 2 bad input.",
            "",
            "Example:",
            "  padward place-route --netlist fixtures/netlists/counter.v \\",
            "      --mapping fixtures/netlists/larch.mapping.json \\",
            "      --fabric fixtures/workbench/fabric.json.gz -o /tmp/counter.design.json"
        })
public final class PlaceRouteCommand implements Callable<Integer> {
    private static final int MOST_LISTED = 20;

    @Spec private CommandSpec spec;

    @Option(
            names = "--netlist",
            required = true,
            paramLabel = "FILE",
            description = "The netlist's file.")
    private Path netlist;

    @Option(
            names = "--mapping",
            required = true,
            paramLabel = "FILE",
            description = "The file that states the kind of cell of each type in the netlist.")
    private Path mapping;

    @Option(names = "--fabric", required = true, paramLabel = "FILE", description = "The fabric.")
    private Path fabric;

    @Option(
            names = "--board",
            paramLabel = "FILE",
            description = "The board around the device, if any.")
    private Path board;

    @Option(
            names = {"-o", "--output"},
            required = true,
            paramLabel = "OUT",
            description = "The design's file to write; compressed if its name ends in .gz.")
    private Path output;

    @Option(
            names = "--top",
            defaultValue = "",
            paramLabel = "MODULE",
            description = "The top module, if the file has several candidates.")
    private String top;

    @Option(
            names = "--port",
            paramLabel = "PORT=PAD",
            description =
                    "Places a port on a pad, named by its name or package pin; may be repeated.")
    private Map<String, String> ports = new HashMap<>();

    @Option(
            names = "--seed",
            defaultValue = "1",
            description = "Seed of the random choices (${DEFAULT-VALUE}).")
    private long seed;

    @Option(
            names = "--effort",
            defaultValue = "1",
            description =
                    "Number of moves, relative to the published annealing schedule "
                            + "(${DEFAULT-VALUE}).")
    private double effort;

    @Option(
            names = "--timing",
            defaultValue = "2",
            paramLabel = "WEIGHT",
            description =
                    "Weight of critical-path delay versus wire length; 0: wire length only "
                            + "(${DEFAULT-VALUE}).")
    private double timing;

    @Override
    public Integer call() throws BadInput {
        if (!(effort > 0 && effort <= 100)) {
            throw new BadInput("--effort", "", "a number above 0, at most 100", "" + effort);
        }
        if (!(timing >= 0 && timing <= 1000)) {
            throw new BadInput("--timing", "", "a number from 0 to 1000", "" + timing);
        }
        Outputs.check(output, netlist, mapping, fabric, board == null ? fabric : board);
        Progress progress = ConsoleProgress.of(spec);
        NetlistFiles files =
                new NetlistFiles(netlist, top, mapping, fabric, Optional.ofNullable(board));
        NetlistFiles.Placed result = placed(files, progress);
        PrintWriter out = spec.commandLine().getOut();
        if (result.result() instanceof PlaceRouteResult.NoRoom none) {
            out.println("It does not fit:");
            none.reasons().forEach(r -> out.println("  " + r));
            out.flush();
            return ExitStatus.NOT_OPEN;
        }
        PlaceRouteResult.OnFabric placed = (PlaceRouteResult.OnFabric) result.result();
        printReport(out, placed, result.notes());
        out.flush();
        return placed.report().unrouted().isEmpty() ? ExitStatus.DONE : ExitStatus.NOT_OPEN;
    }

    private NetlistFiles.Placed placed(NetlistFiles files, Progress progress) throws BadInput {
        try {
            return files.placeAndRoute(
                    output,
                    (read, circuit) ->
                            new PlaceRouteOptions(
                                    seed,
                                    effort,
                                    timing,
                                    PlaceRouteOptions.usual(seed).rounds(),
                                    pads(read, circuit),
                                    Board.UNKNOWN),
                    progress);
        } catch (BadInput fault) {
            throw fault.orBy("--top");
        }
    }

    private Map<String, Integer> pads(Fabric read, Netlist circuit) throws BadInput {
        Map<String, Integer> result = new HashMap<>();
        List<String> names = circuit.ports().stream().map(Netlist.LogicalPort::name).toList();
        Design empty = new Design("", "", read, Board.UNKNOWN, List.of(), List.of(), List.of());
        for (Map.Entry<String, String> entry : ports.entrySet()) {
            if (!names.contains(entry.getKey())) {
                throw new BadInput(
                        "--port",
                        "",
                        "a port of the netlist",
                        "“" + entry.getKey() + "”" + DesignOption.hint(entry.getKey(), names));
            }
            result.put(entry.getKey(), DesignOption.pad(empty, entry.getValue()));
        }
        return result;
    }

    private void printReport(
            PrintWriter out, PlaceRouteResult.OnFabric placed, List<String> moreNotes) {
        PlaceRouteResult.Report report = placed.report();
        Design design = placed.design();
        out.printf(
                Locale.ROOT,
                "%s: %d cells, %d ports, %d nets%n",
                output,
                design.cells().size(),
                design.ports().size(),
                design.nets().size());
        TextTable table = new TextTable("resource", "used", "available", "share");
        for (PlaceRouteResult.Use use : report.uses()) {
            table.row(
                    use.what(),
                    "" + use.used(),
                    "" + use.places(),
                    String.format(Locale.ROOT, "%.1f %%", 100.0 * use.used() / use.places()));
        }
        table.print(out);
        if (report.packed() > 0) {
            out.println(report.packed() + " output registers are in IO register sites");
        }
        out.println(
                "wire length: "
                        + report.tiles()
                        + " tiles estimated, "
                        + report.wires()
                        + " wires used");
        if (!report.worstPath().isEmpty()) {
            out.printf(
                    Locale.ROOT,
                    "worst delay: %.3f ns at the slow corner, without pad drivers:%n",
                    report.worstPs() / 1000.0);
            report.worstPath().stream().limit(MOST_LISTED).forEach(s -> out.println("  " + s));
        }
        List<String> notes = new ArrayList<>(moreNotes);
        notes.addAll(report.notes());
        notes.forEach(n -> out.println("note: " + n));
        if (!report.unrouted().isEmpty()) {
            out.println(report.unrouted().size() + " nets have no route:");
            report.unrouted().stream()
                    .limit(MOST_LISTED)
                    .forEach(u -> out.println("  " + u.net() + ": " + u.reason()));
        }
    }
}
