package padward.cli;

import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import padward.base.BadInput;
import padward.design.Design;
import padward.design.Ledger;
import padward.design.LedgerEntry;
import padward.format.LedgerFile;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code undo}: an entry taken out of a ledger. */
@Command(
        name = "undo",
        mixinStandardHelpOptions = true,
        description = {
            "Takes an entry out of a ledger, the last one unless another is named. An entry that",
            "later ones depend on stays, and the first of these is told."
        },
        footer = {
            "",
            "Example:",
            "  padward undo --design fixtures/small/only.design.json --ledger bench.json --entry 1"
        })
final class UndoCommand implements Callable<Integer> {
    @Mixin private DesignOption design;
    @Spec private CommandSpec spec;

    @Option(
            names = {"-l", "--ledger"},
            required = true,
            paramLabel = "FILE",
            description = "The ledger.")
    private Path ledger;

    @Option(names = "--entry", paramLabel = "N", description = "Which entry, from 1.")
    private Integer entry;

    @Override
    public Integer call() throws BadInput {
        Design read = design.read();
        if (!Files.exists(ledger)) {
            throw new BadInput(ledger.toString(), "", "a ledger", "no such file");
        }
        PrintWriter out = spec.commandLine().getOut();
        LedgerFile.change(ledger, design.file(), read.fabric(), old -> undone(old, read, out));
        out.flush();
        return Padward.DONE;
    }

    private Ledger undone(Ledger old, Design read, PrintWriter out) throws BadInput {
        int count = old.entries().size();
        int number = entry == null ? count : entry;
        if (number < 1 || number > count) {
            String expected = count == 0 ? "a ledger with entries" : "a number from 1 to " + count;
            throw new BadInput("--entry", "", expected, "" + number);
        }
        Ledger without = old.without(number - 1);
        if (without.applyTo(read) instanceof Ledger.Applied.Clashes clashes) {
            int dependent = clashes.index() + (clashes.index() >= number - 1 ? 2 : 1);
            throw new BadInput(
                    ledger.toString(),
                    "$.entries[" + (number - 1) + "]",
                    "an entry that no other depends on",
                    "entry " + dependent + " does: " + String.join("; ", clashes.reasons()));
        }
        LedgerEntry gone = old.entries().get(number - 1);
        out.println("Undone: " + gone.net() + " on " + gone.pad() + ". " + left(count - 1));
        return without;
    }

    private static String left(int count) {
        return switch (count) {
            case 0 -> "Nothing is kept any more.";
            case 1 -> "1 entry is left.";
            default -> count + " entries are left.";
        };
    }
}
