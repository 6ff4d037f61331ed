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
import padward.format.source.Nearest;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
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

    @Option(
            names = "--all",
            paramLabel = "KIND",
            description =
                    "Lists all suspicious things of a kind, one a line, and nothing else; of several"
                            + " files, each behind its name and their number. Where more than three"
                            + " are found, the report names the kind.")
    private String all = "";

    @Option(names = "--json", description = "Prints what is in the files as JSON.")
    private boolean json;

    @Override
    public Integer call() {
        if (!all.isEmpty() && !FileCheck.kinds().contains(all)) {
            throw new ParameterException(
                    spec.commandLine(),
                    "Option --all: expected one of "
                            + String.join(", ", FileCheck.kinds())
                            + ", found "
                            + Nearest.describe(all, FileCheck.kinds().stream()));
        }
        return json ? asJson() : asText();
    }

    private int asJson() {
        PrintWriter err = spec.commandLine().getErr();
        List<Reports.Checked> checks = new ArrayList<>();
        for (Path file : files) {
            try {
                checks.add(checked(file, FileCheck.check(file, ConsoleProgress.of(spec))));
            } catch (BadInput fault) {
                checks.add(
                        new Reports.Checked(
                                file.toString(),
                                List.of(),
                                List.of(),
                                List.of(),
                                Optional.of(fault)));
            }
        }
        PrintWriter out = spec.commandLine().getOut();
        out.println(JsonText.pretty(Reports.Checked.form(), checks));
        out.flush();
        return checks.stream().allMatch(c -> c.fault().isEmpty())
                ? ExitStatus.DONE
                : ExitStatus.BAD_INPUT;
    }

    private Reports.Checked checked(Path file, FileCheck.Found found) {
        List<String> lines = found.lines();
        return new Reports.Checked(
                file.toString(),
                lines.stream().filter(l -> !l.startsWith(FileCheck.SUSPICIOUS)).toList(),
                lines.stream()
                        .filter(l -> l.startsWith(FileCheck.SUSPICIOUS))
                        .map(l -> l.substring(FileCheck.SUSPICIOUS.length()))
                        .toList(),
                found.all(all),
                Optional.empty());
    }

    /** Of several files, each begins with its name, so that one with nothing to list shows too. */
    private void printAll(Path file, FileCheck.Found found, PrintWriter out) {
        List<String> names = found.all(all);
        String indent = "";
        if (files.size() > 1) {
            out.println(file + ": " + names.size());
            indent = "  ";
        }
        for (String name : names) {
            out.println(indent + name);
        }
    }

    private int asText() {
        PrintWriter out = spec.commandLine().getOut();
        PrintWriter err = spec.commandLine().getErr();
        int status = ExitStatus.DONE;
        for (Path file : files) {
            try {
                FileCheck.Found found = FileCheck.check(file, ConsoleProgress.of(spec));
                if (all.isEmpty()) {
                    out.println(file + ": sound");
                    found.lines().forEach(l -> out.println("  " + l));
                } else {
                    printAll(file, found, out);
                }
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
