package padward.cli.command;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import padward.base.BadInput;
import padward.base.Progress;
import padward.cli.manners.ConsoleProgress;
import padward.cli.option.ReplaceOption;
import padward.cli.output.ExitStatus;
import padward.cli.output.FileCheck;
import padward.format.bsdl.BsdlReader;
import padward.format.bsdl.PackagePins;
import padward.format.design.ImportedFiles;
import padward.format.tables.TableImport;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code import}: a fabric, a design and a board from plain tables. */
@Command(
        name = "import",
        mixinStandardHelpOptions = true,
        description =
                "Reads a folder of plain tables (CSV) as a fabric, a design on it and a board. "
                        + "All faults are listed with table, row and column; nothing is written if there "
                        + "are any. docs/your-own-device.md lists the tables and their columns.",
        footer = {
            "",
            "Example:",
            "  padward export --design fixtures/small/only.design.json --tables /tmp/only-tables",
            "  padward import --tables /tmp/only-tables -o /tmp/only"
        })
public final class ImportCommand implements Callable<Integer> {
    @Mixin private ReplaceOption replacing;
    @Spec private CommandSpec spec;

    @Option(
            names = "--tables",
            required = true,
            paramLabel = "DIR",
            description = "Folder with the tables: wires.csv, sites.csv and so on.")
    private Path tables;

    @Option(
            names = {"-o", "--output"},
            required = true,
            paramLabel = "OUT",
            description = "Folder to write fabric.json.gz, design.json.gz and board.json to.")
    private Path output;

    @Option(
            names = "--faults",
            defaultValue = "100",
            paramLabel = "N",
            description = "Maximum number of faults to list (${DEFAULT-VALUE}); all are counted.")
    private int mostFaults;

    @Option(
            names = "--bsdl",
            paramLabel = "FILE",
            description =
                    "Package pins and directions of pads from a BSDL file (IEEE 1149.1): fills in "
                            + "what the pad table leaves open and checks what it states.")
    private Path bsdl;

    @Option(
            names = "--pin-map",
            defaultValue = "",
            paramLabel = "NAME",
            description = "The pin map of the BSDL file to use, if it has several.")
    private String pinMap;

    @Override
    public Integer call() throws BadInput {
        if (mostFaults < 1) {
            throw new BadInput("--faults", "", "a whole number from 1", "" + mostFaults);
        }
        replacing.check(output);
        PrintWriter err = spec.commandLine().getErr();
        Progress progress = ConsoleProgress.of(spec);
        Optional<PackagePins> pins =
                bsdl == null
                        ? Optional.empty()
                        : Optional.of(BsdlReader.read(bsdl, pinMap, progress));
        TableImport.Result result = TableImport.read(tables, pins, mostFaults, progress);
        if (result instanceof TableImport.Faulty faulty) {
            printFaults(faulty, err);
            return ExitStatus.BAD_INPUT;
        }
        TableImport.Sound sound = (TableImport.Sound) result;
        progress.report(-1, "writing " + output);
        ImportedFiles.write(sound.fabric(), sound.board(), sound.design(), output);
        PrintWriter out = spec.commandLine().getOut();
        List<String> lines =
                sound.design().isPresent()
                        ? FileCheck.describe(sound.design().get(), progress)
                        : FileCheck.describe(sound.fabric(), progress);
        out.println(output + ": written");
        lines.forEach(l -> out.println("  " + l));
        out.flush();
        return ExitStatus.DONE;
    }

    private static void printFaults(TableImport.Faulty faulty, PrintWriter err) {
        faulty.shown().forEach(f -> err.println("padward: " + f.getMessage()));
        long total = faulty.total();
        err.println(
                "padward: nothing imported: "
                        + total
                        + (total == 1 ? " fault" : " faults")
                        + (total > faulty.shown().size()
                                ? ", the first " + faulty.shown().size() + " of them above"
                                : ""));
        for (Map.Entry<String, Long> table : faulty.countByTable().entrySet()) {
            err.println("  " + table.getKey() + ": " + table.getValue());
        }
        err.flush();
    }
}
