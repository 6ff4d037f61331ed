package padward.cli.command;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.LinkedHashSet;
import java.util.Set;
import java.util.concurrent.Callable;
import padward.base.BadInput;
import padward.base.WholeFile;
import padward.breakout.ask.Cautions;
import padward.change.Ledger;
import padward.cli.option.DesignOption;
import padward.cli.option.LedgerOption;
import padward.cli.option.OutputOption;
import padward.cli.option.Outputs;
import padward.cli.output.CautionTable;
import padward.cli.output.ExitStatus;
import padward.design.Design;
import padward.format.ledger.LedgerReplay;
import padward.handover.ChangeList;
import padward.handover.ChangeListText;
import padward.handover.ChangeTemplate;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code changes}: a ledger's changes for other tools. */
@Command(
        name = "changes",
        mixinStandardHelpOptions = true,
        description =
                "Writes the changes of a ledger as a list of elementary changes for another "
                        + "tool to carry out: as .json, as .csv, or through a text template of your own "
                        + "that writes what your environment reads. A template cannot run anything; "
                        + "docs/templates has an example.",
        footer = {
            "",
            "Example:",
            "  padward changes --design fixtures/small/only.design.json --ledger bench.json \\",
            "      --template docs/templates/plain-commands.mustache -o changes.txt"
        })
public final class ChangesCommand implements Callable<Integer> {
    @Mixin private DesignOption design;
    @Mixin private LedgerOption ledger;
    @Mixin private OutputOption output;
    @Spec private CommandSpec spec;

    @Option(
            names = {"-t", "--template"},
            paramLabel = "FILE",
            description = "A text template in the Mustache language.")
    private Path template;

    @Option(
            names = "--back",
            description =
                    "Writes the list that takes the changes back, the last entry first, for a tool "
                            + "that still has the changed design open.")
    private boolean back;

    @Override
    public Integer call() throws BadInput {
        Path target = output.checked(design, ledger);
        if (template != null) {
            Outputs.check(target, template);
        }
        Design read = design.read();
        Ledger kept = ledger.read(read);
        LedgerReplay.checkFile(kept, ledger.file(), design.file());
        LedgerReplay.eachApplied(kept, ledger.file(), read);
        ChangeList list = back ? ChangeList.back(read, kept) : ChangeList.of(read, kept);
        WholeFile.writeText(target, text(list));
        PrintWriter out = spec.commandLine().getOut();
        int count = list.entries().stream().mapToInt(e -> e.changes().size()).sum();
        out.println("Written: " + target + ", " + count + " elementary changes");
        if (list.withoutTile() > 0) {
            out.println(
                    "Without a tile: "
                            + list.withoutTile()
                            + " switches; the fabric's description does not say where they are");
        }
        Set<Cautions.Shared> cautions = new LinkedHashSet<>();
        list.entries().forEach(e -> cautions.addAll(e.cautions()));
        CautionTable.printShared(cautions, out);
        out.flush();
        return ExitStatus.DONE;
    }

    private String text(ChangeList list) throws BadInput {
        if (template != null) {
            return ChangeTemplate.run(template, list);
        }
        if (output.lowerName().endsWith(".json")) {
            return ChangeListText.json(list);
        }
        if (output.lowerName().endsWith(".csv")) {
            return ChangeListText.csv(list);
        }
        throw new BadInput(
                "-o",
                "",
                "a name that ends in .json or .csv, or --template with it",
                output.file().toString());
    }
}
