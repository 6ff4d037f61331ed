package padward.cli.command;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import padward.base.BadInput;
import padward.cli.manners.ConsoleProgress;
import padward.cli.option.OutputOption;
import padward.cli.option.Outputs;
import padward.cli.output.ExitStatus;
import padward.fabric.Fabric;
import padward.format.bareboard.BoardNets;
import padward.format.bareboard.PartsTable;
import padward.format.design.BoardWriter;
import padward.format.fabric.FabricReader;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code board}: what the board has on each pad, from its net list. */
@Command(
        name = "board",
        mixinStandardHelpOptions = true,
        description =
                "Writes the file of a board from its net list: bare-board test data (IPC-D-356A), or "
                        + "a .csv with the columns net, part, pin. A table of the parts says what is an "
                        + "input or an output, its voltages, and how headers are arranged; "
                        + "docs/your-own-device.md lists its columns.",
        footer = {
            "",
            "Example:",
            "  padward board --nets fixtures/package/heron-2.nets.csv \\",
            "      --parts fixtures/package/heron-2.parts.csv --chip U1 \\",
            "      --fabric fixtures/small/only.fabric.json -o heron-2.board.json"
        })
public final class BoardCommand implements Callable<Integer> {
    private static final int FEW = 20;

    @Spec private CommandSpec spec;

    @Option(names = "--nets", required = true, paramLabel = "FILE", description = "The net list.")
    private Path nets;

    @Option(names = "--parts", paramLabel = "FILE", description = "The table of the parts.")
    private Path parts;

    @Option(
            names = "--chip",
            required = true,
            paramLabel = "PART",
            description = "The chip's reference designator on the board.")
    private String chip;

    @Option(
            names = "--fabric",
            required = true,
            paramLabel = "FILE",
            description = "The fabric whose pads have the chip's package pins.")
    private Path fabric;

    @Option(names = "--name", paramLabel = "NAME", description = "The board's name.")
    private String name;

    @Mixin private OutputOption output;

    @Override
    public Integer call() throws BadInput {
        Path target = output.file();
        Outputs.check(target, nets);
        Outputs.check(target, fabric);
        if (parts != null) {
            Outputs.check(target, parts);
        }
        Fabric read = FabricReader.read(fabric, ConsoleProgress.of(spec));
        PartsTable table =
                parts == null
                        ? PartsTable.empty()
                        : PartsTable.read(parts, ConsoleProgress.of(spec));
        String title = name == null ? nets.getFileName().toString() : name;
        BoardNets.Imported imported =
                BoardNets.read(nets, ConsoleProgress.of(spec)).board(title, chip, read, table);
        BoardWriter.write(imported.board(), read, target);
        PrintWriter out = spec.commandLine().getOut();
        int count = imported.board().wirings().size();
        out.println("Written: " + target + ", " + count + (count == 1 ? " pad" : " pads"));
        list("Pins of " + chip + " without a pad in the fabric: ", imported.withoutPad(), out);
        list("Not in the parts table: ", imported.undescribed(), out);
        out.flush();
        return ExitStatus.DONE;
    }

    private static void list(String what, List<String> names, PrintWriter out) {
        if (!names.isEmpty()) {
            String few = String.join(", ", names.subList(0, Math.min(FEW, names.size())));
            int more = names.size() - FEW;
            out.println(what + few + (more > 0 ? " and " + more + " more" : ""));
        }
    }
}
