package padward.cli.command;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import padward.base.BadInput;
import padward.base.Progress;
import padward.cli.manners.ConsoleProgress;
import padward.cli.option.ReplaceOption;
import padward.cli.output.ExitStatus;
import padward.design.Design;
import padward.fabric.Fabric;
import padward.format.design.DesignReader;
import padward.format.fabric.FabricReader;
import padward.format.tables.TableExport;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code export}: a fabric, a design and its board as plain tables. */
@Command(
        name = "export",
        mixinStandardHelpOptions = true,
        description =
                "Writes a design with its fabric and its board, or a fabric alone, as plain "
                        + "tables (CSV). A pattern fabric is written wire by wire. import reads the "
                        + "tables back as the same fabric, design and board.",
        footer = {
            "",
            "Example:",
            "  padward export --design fixtures/small/only.design.json --tables /tmp/only-tables"
        })
public final class ExportCommand implements Callable<Integer> {
    @Mixin private ReplaceOption replacing;
    @Spec private CommandSpec spec;

    @ArgGroup(exclusive = true, multiplicity = "1")
    private What what;

    /** One of the two. */
    static final class What {
        @Option(
                names = {"-d", "--design"},
                paramLabel = "FILE",
                description = "The design's file, which names its fabric and its board.")
        private Path design;

        @Option(names = "--fabric", paramLabel = "FILE", description = "The file of a fabric.")
        private Path fabric;
    }

    @Option(
            names = "--tables",
            required = true,
            paramLabel = "DIR",
            description = "Folder to write to.")
    private Path tables;

    @Option(names = "--gz", description = "Compresses the tables.")
    private boolean zipped;

    @Override
    public Integer call() throws BadInput {
        replacing.check(tables);
        Progress progress = ConsoleProgress.of(spec);
        Fabric fabric;
        if (what.design != null) {
            Design design = DesignReader.read(what.design, progress);
            TableExport.write(design, tables, zipped, progress);
            fabric = design.fabric();
        } else {
            fabric = FabricReader.read(what.fabric, progress);
            TableExport.write(fabric, tables, zipped, progress);
        }
        PrintWriter out = spec.commandLine().getOut();
        out.println(tables + ": " + fabric.vertexCount() + " wires, pins and pads written");
        out.flush();
        return ExitStatus.DONE;
    }
}
