package padward.cli.command;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import padward.base.BadInput;
import padward.cli.form.Reports;
import padward.cli.manners.ConsoleProgress;
import padward.cli.output.ExitStatus;
import padward.cli.output.FileCheck;
import padward.format.form.JsonText;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code check}: whether files are valid. */
@Command(
        name = "check",
        mixinStandardHelpOptions = true,
        description =
                "Reads Padward's files and reports what is in them, or what is wrong; also a"
                        + " board's net list (IPC-D-356A, or a .csv with the columns net, part, pin)"
                        + " and its table of parts. For fabrics, designs and net lists it also lists"
                        + " what is valid but suspicious: pads that cannot be reached, unconnected"
                        + " wires, nets without a route, pins on several nets.",
        footer = {"", "Example:", "  padward check fixtures/small/only.design.json"})
public final class CheckCommand implements Callable<Integer> {
    @Spec private CommandSpec spec;

    @Parameters(arity = "1..*", paramLabel = "FILE", description = "Files to check.")
    private List<Path> files;

    @Option(names = "--json", description = "Prints what is in the files as JSON.")
    private boolean json;

    @Override
    public Integer call() {
        return json ? asJson() : asText();
    }

    private int asJson() {
        PrintWriter err = spec.commandLine().getErr();
        List<Reports.Checked> all = new ArrayList<>();
        for (Path file : files) {
            try {
                List<String> lines = FileCheck.check(file, ConsoleProgress.of(spec));
                all.add(checked(file, lines));
            } catch (BadInput fault) {
                all.add(
                        new Reports.Checked(
                                file.toString(), List.of(), List.of(), Optional.of(fault)));
            }
        }
        PrintWriter out = spec.commandLine().getOut();
        out.println(JsonText.pretty(Reports.Checked.form(), all));
        out.flush();
        return all.stream().allMatch(c -> c.fault().isEmpty())
                ? ExitStatus.DONE
                : ExitStatus.BAD_INPUT;
    }

    private static Reports.Checked checked(Path file, List<String> lines) {
        return new Reports.Checked(
                file.toString(),
                lines.stream().filter(l -> !l.startsWith(FileCheck.SUSPICIOUS)).toList(),
                lines.stream()
                        .filter(l -> l.startsWith(FileCheck.SUSPICIOUS))
                        .map(l -> l.substring(FileCheck.SUSPICIOUS.length()))
                        .toList(),
                Optional.empty());
    }

    private int asText() {
        PrintWriter out = spec.commandLine().getOut();
        PrintWriter err = spec.commandLine().getErr();
        int status = ExitStatus.DONE;
        for (Path file : files) {
            try {
                List<String> lines = FileCheck.check(file, ConsoleProgress.of(spec));
                out.println(file + ": sound");
                lines.forEach(l -> out.println("  " + l));
            } catch (BadInput fault) {
                err.println("padward: " + fault.getMessage());
                status = ExitStatus.BAD_INPUT;
            }
        }
        out.flush();
        err.flush();
        return status;
    }
}
