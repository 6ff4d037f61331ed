package padward.cli.command;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import padward.base.BadInput;
import padward.change.EntryRemoval;
import padward.change.Ledger;
import padward.cli.form.EntryForm;
import padward.cli.form.Reports;
import padward.cli.option.DesignOption;
import padward.cli.option.DryRunOption;
import padward.cli.option.LedgerOption;
import padward.cli.output.ExitStatus;
import padward.design.Design;
import padward.format.form.JsonText;
import padward.format.ledger.EntrySigning;
import padward.format.ledger.LedgerReplay;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code undo}: removes an entry from a ledger. */
@Command(
        name = "undo",
        mixinStandardHelpOptions = true,
        description =
                "Removes an entry from a ledger, the last one unless another is named. An "
                        + "entry that later ones depend on is not removed, and these are listed; "
                        + "--with-dependents removes them too.",
        footer = {
            "",
            "Example:",
            "  padward undo --design fixtures/small/only.design.json --ledger bench.json --entry 1"
        })
public final class UndoCommand implements Callable<Integer> {
    @Mixin private DesignOption design;
    @Mixin private LedgerOption ledger;
    @Mixin private DryRunOption dryRun;
    @Spec private CommandSpec spec;

    @Option(names = "--entry", paramLabel = "N", description = "Number of the entry, from 1.")
    private Integer entry;

    @Option(
            names = "--with-dependents",
            description = "Also removes the entries that depend on it.")
    private boolean withDependents;

    @Option(names = "--json", description = "Prints what was undone as JSON.")
    private boolean json;

    private int number;
    private EntryRemoval undoing;

    @Override
    public Integer call() throws BadInput {
        Design read = design.read();
        ledger.checkIsThere();
        Ledger left =
                dryRun.change(
                        ledger.file(), design.file(), read.fabric(), old -> undone(old, read));
        PrintWriter out = spec.commandLine().getOut();
        if (json) {
            out.println(JsonText.pretty(Reports.Undone.form(), report(left)));
        } else {
            out.println(
                    dryRun.either("Undone: entry ", "Would be undone (--dry-run): entry ")
                            + number
                            + ", "
                            + undoing.entry().what()
                            + ".");
            undoing.dependents()
                    .forEach(
                            d ->
                                    out.println(
                                            "With it: entry "
                                                    + (d.index() + 1)
                                                    + ", "
                                                    + d.entry().what()
                                                    + "."));
            if (!dryRun.isOn()) {
                out.println(left(left.entries().size()));
            }
        }
        out.flush();
        return ExitStatus.DONE;
    }

    private Ledger undone(Ledger old, Design read) throws BadInput {
        int count = old.entries().size();
        number = entry == null ? count : entry;
        if (number < 1 || number > count) {
            String expected = count == 0 ? "a ledger with entries" : "a number from 1 to " + count;
            throw new BadInput("--entry", "", expected, count == 0 ? "none" : "" + number);
        }
        LedgerReplay.applied(old, ledger.file(), read);
        undoing = EntryRemoval.of(old, read, number - 1);
        if (!undoing.isAlone() && !withDependents) {
            String dependents =
                    undoing.dependents().stream()
                            .map(
                                    d ->
                                            "entry "
                                                    + (d.index() + 1)
                                                    + " depends on it: "
                                                    + LedgerReplay.few(d.reasons()))
                            .collect(Collectors.joining("; "));
            throw new BadInput(
                    ledger.file().toString(),
                    "$.entries[" + (number - 1) + "]",
                    "an entry that no other depends on, or --with-dependents",
                    dependents);
        }
        // The remaining entries now start from another state of the design.
        return EntrySigning.again(undoing.rest(), read);
    }

    private static String left(int count) {
        return switch (count) {
            case 0 -> "The ledger is empty.";
            case 1 -> "1 entry remains.";
            default -> count + " entries remain.";
        };
    }

    private Reports.Undone report(Ledger left) {
        List<EntryForm.Numbered> undone = new ArrayList<>();
        undone.add(new EntryForm.Numbered(number, undoing.entry()));
        undoing.dependents()
                .forEach(d -> undone.add(new EntryForm.Numbered(d.index() + 1, d.entry())));
        return new Reports.Undone(
                ledger.file().toString(), dryRun.isOn(), undone, left.entries().size());
    }
}
