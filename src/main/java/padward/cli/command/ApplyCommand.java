package padward.cli.command;

import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import padward.base.BadInput;
import padward.base.TimeStamp;
import padward.base.WholeFile;
import padward.breakout.ask.Cautions;
import padward.breakout.ask.Price;
import padward.breakout.text.PriceText;
import padward.breakout.verify.CarryOver;
import padward.breakout.verify.ChangeAudit;
import padward.change.EntryReplay;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.cli.form.Reports;
import padward.cli.option.DesignOption;
import padward.cli.option.DryRunOption;
import padward.cli.option.LedgerOption;
import padward.cli.option.OutputOption;
import padward.cli.option.Outputs;
import padward.cli.output.CarryOverTable;
import padward.cli.output.CautionTable;
import padward.cli.output.ExitStatus;
import padward.cli.output.PrintedLedger;
import padward.design.Design;
import padward.format.design.DesignReader;
import padward.format.design.DesignWriter;
import padward.format.design.Digest;
import padward.format.design.References;
import padward.format.form.JsonText;
import padward.format.ledger.EntrySigning;
import padward.format.ledger.LedgerReplay;
import padward.format.ledger.LedgerWriter;
import padward.unblock.why.SearchLimits;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code apply}: a ledger on a design, written as a new design. */
@Command(
        name = "apply",
        mixinStandardHelpOptions = true,
        description =
                "Writes a copy of a design with all changes in a ledger applied, reads the copy"
                        + " back, and reports what changed and that nothing else did. An empty ledger"
                        + " gives an exact copy of the design's file. If the design is from another run"
                        + " than the ledger, every entry is checked, and those that no longer fit are"
                        + " listed; --search-again searches new routes to the same pads and writes them"
                        + " to a new ledger.",
        footer = {
            "",
            "Example:",
            "  padward apply --design fixtures/small/only.design.json --ledger bench.json \\",
            "      -o changed.design.json"
        })
public final class ApplyCommand implements Callable<Integer> {
    @Mixin private DesignOption design;
    @Mixin private LedgerOption ledger;
    @Mixin private OutputOption output;
    @Mixin private DryRunOption dryRun;
    @Spec private CommandSpec spec;

    @Option(
            names = "--search-again",
            description =
                    "Searches a new route for each line that no longer fits. Only routes are taken"
                            + " that are open, or that open without any endpoint losing its signal, and"
                            + " that cost nobody more than the entry did: a port that only this run has"
                            + " on the pad keeps it. The other lines are listed, and the exit status is"
                            + " 1.")
    private boolean searchAgain;

    @Option(
            names = "--new-ledger",
            paramLabel = "FILE",
            description = "A new ledger for this run, with everything that was applied.")
    private Path newLedger;

    @Option(names = "--json", description = "Prints the report as JSON.")
    private boolean json;

    private PrintWriter out;

    @Override
    public Integer call() throws BadInput {
        out = spec.commandLine().getOut();
        Path target = output.checked(design, ledger);
        checkNewLedger(target);
        Design read = design.read();
        Ledger kept = ledger.read(read);
        boolean sameRun = LedgerReplay.isOf(kept, design.file());
        CarryOver carried = sameRun ? asKept(kept, read) : carriedOver(kept, read);
        Optional<ChangeAudit> report = Optional.empty();
        if (kept.entries().isEmpty() && isLike(design.file(), target)) {
            if (!dryRun.isOn()) {
                WholeFile.write(target, bytes -> Files.copy(design.file(), bytes));
            }
        } else {
            Design again = carried.design();
            if (!dryRun.isOn()) {
                write(carried.design(), target);
                again = DesignReader.read(target, design.progress());
            }
            report = Optional.of(ChangeAudit.of(read, applied(carried), again, design.progress()));
        }
        if (newLedger != null && !dryRun.isOn()) {
            writeLedger(read, carried);
        }
        if (json) {
            out.println(
                    JsonText.pretty(
                            Reports.Applied.form(), report(kept, sameRun, carried, report, read)));
        } else {
            print(kept, sameRun, carried, report);
        }
        out.flush();
        return carried.isWhole() ? ExitStatus.DONE : ExitStatus.NOT_OPEN;
    }

    private void checkNewLedger(Path target) throws BadInput {
        if (searchAgain && newLedger == null) {
            throw new BadInput("--search-again", "", "--new-ledger FILE with it", "none");
        }
        if (newLedger != null) {
            Outputs.checkWithDesign(newLedger, design.file(), ledger.file());
            Outputs.check(newLedger, target);
        }
    }

    /** On the run that the ledger was made on, every entry must give the recorded result. */
    private CarryOver asKept(Ledger kept, Design read) throws BadInput {
        Design after = LedgerReplay.eachApplied(kept, ledger.file(), read);
        List<CarryOver.Outcome> outcomes = new ArrayList<>();
        EntryReplay replay = new EntryReplay(read);
        for (LedgerEntry entry : kept.entries()) {
            Design before = replay.design();
            replay.add(entry.edits());
            outcomes.add(CarryOver.Outcome.fitting(outcomes.size(), entry, before));
        }
        return new CarryOver(after, outcomes);
    }

    /** On another run every entry is checked; without a new search, all must fit. */
    private CarryOver carriedOver(Ledger kept, Design read) throws BadInput {
        CarryOver carried =
                CarryOver.of(kept, read, searchAgain, SearchLimits.USUAL, design.progress());
        if (!searchAgain && !carried.misfits().isEmpty()) {
            if (json) {
                out.println(
                        JsonText.pretty(
                                Reports.Applied.form(),
                                report(kept, false, carried, Optional.empty(), read)));
            } else {
                CarryOverTable.print(kept, carried, out);
            }
            out.flush();
            throw LedgerReplay.clash(
                    carried.misfits().stream()
                            .map(o -> new Ledger.Clash(o.index(), o.entry(), o.reasons()))
                            .toList(),
                    ledger.file());
        }
        return carried;
    }

    private static List<LedgerEntry> applied(CarryOver carried) {
        return carried.outcomes().stream()
                .filter(o -> !o.edits().isEmpty())
                .map(ApplyCommand::applied)
                .toList();
    }

    /** An entry that was routed again is signed by the user who searched again. */
    private static LedgerEntry applied(CarryOver.Outcome outcome) {
        LedgerEntry old = outcome.entry();
        return outcome.fits()
                ? old
                : new LedgerEntry(
                                TimeStamp.now(),
                                EntrySigning.user(),
                                old.note(),
                                old.net(),
                                old.pad(),
                                outcome.edits())
                        .withAccepted(old.accepted())
                        .withLeads(old.leads());
    }

    private void writeLedger(Design read, CarryOver carried) throws BadInput {
        Ledger fresh =
                new Ledger(
                        design.file().getFileName().toString(),
                        Digest.of(design.file()),
                        applied(carried));
        LedgerWriter.write(EntrySigning.again(fresh, read), read.fabric(), newLedger);
    }

    /**
     * Whether a byte-for-byte copy is valid at the target: names of other files are relative, and
     * .gz means gzip.
     */
    private static boolean isLike(Path one, Path other) {
        return one.toAbsolutePath().getParent().equals(other.toAbsolutePath().getParent())
                && one.toString().endsWith(".gz") == other.toString().endsWith(".gz");
    }

    private void write(Design changed, Path target) throws BadInput {
        References references = References.of(design.file()).seenFrom(design.file(), target);
        DesignWriter.write(changed, target, references.fabric(), references.board());
    }

    private void print(
            Ledger kept, boolean sameRun, CarryOver carried, Optional<ChangeAudit> report) {
        if (!sameRun) {
            CarryOverTable.print(kept, carried, out);
        }
        if (report.isPresent()) {
            PrintedLedger.print(report.get(), out);
        } else {
            out.println(
                    "The ledger is empty: the design's file "
                            + dryRun.either("was copied unchanged.", "would be copied unchanged."));
        }
        Price price =
                carried.outcomes().stream()
                        .map(CarryOver.Outcome::price)
                        .reduce(Price.NOTHING, Price::plus);
        if (!kept.entries().isEmpty()) {
            out.println("What it costs: " + PriceText.sentences(price));
        }
        Set<Cautions.Shared> cautions = new LinkedHashSet<>();
        carried.outcomes().forEach(o -> cautions.addAll(o.cautions()));
        CautionTable.printShared(cautions, out);
        String written = dryRun.either("", "not written (--dry-run): ");
        out.println(dryRun.either("Written: ", "Not written (--dry-run): ") + output.file());
        if (newLedger != null) {
            out.println("New ledger: " + written + newLedger);
        }
    }

    private Reports.Applied report(
            Ledger kept,
            boolean sameRun,
            CarryOver carried,
            Optional<ChangeAudit> audit,
            Design read) {
        boolean refused = !searchAgain && !carried.misfits().isEmpty();
        boolean unwritten = refused || dryRun.isOn();
        return new Reports.Applied(
                ledger.file().toString(),
                kept.design(),
                sameRun,
                carried,
                unwritten ? Optional.empty() : Optional.of(output.file().toString()),
                unwritten ? Optional.empty() : Optional.ofNullable(newLedger).map(Path::toString),
                audit,
                read.fabric());
    }
}
