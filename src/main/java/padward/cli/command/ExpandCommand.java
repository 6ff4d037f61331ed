package padward.cli.command;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import padward.base.BadInput;
import padward.cli.manners.ConsoleProgress;
import padward.cli.option.Outputs;
import padward.cli.output.ExitStatus;
import padward.fabric.Fabric;
import padward.format.fabric.FabricReader;
import padward.format.fabric.FabricWriter;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code expand}: a pattern fabric written wire by wire. */
@Command(
        name = "expand",
        mixinStandardHelpOptions = true,
        description =
                "Writes a fabric in the explicit form: every wire, switch, site and pad is "
                        + "listed.",
        footer = {
            "",
            "Example:",
            "  padward expand fixtures/small/only.fabric.json -o /tmp/only-explicit.json.gz"
        })
public final class ExpandCommand implements Callable<Integer> {
    @Spec private CommandSpec spec;

    @Parameters(paramLabel = "FABRIC", description = "The fabric's file.")
    private Path file;

    @Option(
            names = {"-o", "--output"},
            required = true,
            paramLabel = "OUT",
            description = "The file to write; compressed when its name ends in .gz.")
    private Path output;

    @Override
    public Integer call() throws BadInput {
        Outputs.check(output, file);
        Fabric fabric = FabricReader.read(file, ConsoleProgress.of(spec));
        FabricWriter.write(fabric, output);
        PrintWriter out = spec.commandLine().getOut();
        out.println(output + ": " + fabric.vertexCount() + " vertices written");
        out.flush();
        return ExitStatus.DONE;
    }
}
