package padward.cli.ledger;

import java.io.PrintWriter;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import padward.base.BadInput;
import padward.change.Edit;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.change.LedgerLead;
import padward.cli.form.EntryForm;
import padward.cli.form.Reports;
import padward.cli.option.DesignOption;
import padward.cli.option.LedgerOption;
import padward.cli.option.LimitOption;
import padward.cli.output.ExitStatus;
import padward.cli.output.TextTable;
import padward.format.form.JsonText;
import padward.format.source.Nearest;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code ledger}: what is in a ledger. */
@Command(
        name = "ledger",
        mixinStandardHelpOptions = true,
        description =
                "Lists the entries of a ledger, or shows everything that one of them states: edits,"
                        + " what was accepted, leads. Changes nothing.",
        footer = {
            "",
            "Example:",
            "  padward ledger list --design fixtures/small/only.design.json --ledger bench.json"
        })
public final class LedgerCommand implements Callable<Integer> {
    private static final List<String> ACTIONS = List.of("list", "show");

    @Mixin private DesignOption design;
    @Mixin private LedgerOption ledger;
    @Mixin private LimitOption limit;
    @Spec private CommandSpec spec;

    @Parameters(
            arity = "0..1",
            defaultValue = "list",
            paramLabel = "list|show",
            description = "list: a row for each entry (the default). show: one entry in full.")
    private String action;

    @Option(
            names = "--entry",
            paramLabel = "N",
            description = "With show: number of the entry, from 1; otherwise the last.")
    private Integer number;

    @Option(names = "--json", description = "Prints the entries as JSON.")
    private boolean json;

    @Override
    public Integer call() throws BadInput {
        if (!ACTIONS.contains(action)) {
            throw new BadInput(
                    "ledger", "", "list or show", Nearest.describe(action, ACTIONS.stream()));
        }
        ledger.checkIsThere();
        Ledger read = ledger.readToList(design.read(), design.file(), spec.commandLine().getErr());
        PrintWriter out = spec.commandLine().getOut();
        List<Integer> numbers = numbers(read.entries().size());
        if (json) {
            print(read, numbers, out);
        } else if (action.equals("show")) {
            show(read, numbers.get(0), out);
        } else {
            list(read, numbers, out);
        }
        out.flush();
        return ExitStatus.DONE;
    }

    /** Numbers of the entries that are printed, from 1. */
    private List<Integer> numbers(int count) throws BadInput {
        if (action.equals("list")) {
            if (number != null) {
                throw new BadInput("--entry", "", "it together with show", "list");
            }
            return limit.start(IntStream.rangeClosed(1, count).boxed().toList());
        }
        int one = number == null ? count : number;
        if (one < 1 || one > count) {
            String expected = count == 0 ? "a ledger with entries" : "a number from 1 to " + count;
            throw new BadInput("--entry", "", expected, count == 0 ? "none" : "" + one);
        }
        return List.of(one);
    }

    private void print(Ledger read, List<Integer> numbers, PrintWriter out) {
        List<EntryForm.Numbered> all = EntryForm.Numbered.all(read);
        Reports.Entries report =
                new Reports.Entries(
                        ledger.file().toString(),
                        read.design(),
                        numbers.stream().map(n -> all.get(n - 1)).toList(),
                        all.size());
        out.println(JsonText.pretty(Reports.Entries.form(), report));
    }

    private void list(Ledger read, List<Integer> numbers, PrintWriter out) {
        TextTable table = new TextTable("entry", "when", "who", "net", "pad", "edits", "note");
        for (int one : numbers) {
            LedgerEntry entry = read.entries().get(one - 1);
            table.row(
                    "" + one,
                    entry.when(),
                    entry.who(),
                    entry.net(),
                    entry.pad(),
                    "" + entry.edits().size(),
                    entry.note().lines().findFirst().orElse(""));
        }
        table.print(out);
        limit.remark(read.entries().size()).ifPresent(out::println);
        if (read.entries().isEmpty()) {
            out.println("The ledger is empty.");
        }
    }

    private static void show(Ledger read, int one, PrintWriter out) {
        LedgerEntry entry = read.entries().get(one - 1);
        out.println("Entry " + one + " of " + read.entries().size() + ", " + entry.what() + ".");
        out.println("Kept by " + entry.who() + ", " + entry.when() + ".");
        if (!entry.note().isBlank()) {
            out.println("Note: " + entry.note());
        }
        out.println("Edits:");
        entry.edits().stream().map(Edit::toText).forEach(e -> out.println("  " + e));
        for (LedgerEntry.Acceptance accepted : entry.accepted()) {
            out.println("Accepted: " + accepted.toText() + ".");
        }
        String leads =
                LedgerLead.all(read.entries()).get(one - 1).stream()
                        .map(LedgerCommand::lead)
                        .collect(Collectors.joining("; "));
        if (!leads.isEmpty()) {
            out.println("Leads: " + leads + ".");
        }
    }

    /** Every line has a channel; what else is known of its lead follows. */
    private static String lead(LedgerLead lead) {
        String more = lead.toText();
        return "port "
                + lead.port()
                + " on channel "
                + lead.channel()
                + (more.isEmpty() ? "" : " (" + more + ")");
    }
}
