package padward.ui.model;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.verify.ChangeAudit;
import padward.change.EntryRemoval;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.change.LedgerLead;
import padward.change.Outcome;
import padward.design.Design;
import padward.format.design.DesignReader;
import padward.format.design.DesignWriter;
import padward.format.design.References;
import padward.format.ledger.EntrySigning;
import padward.format.ledger.LedgerFile;
import padward.format.ledger.LedgerReader;
import padward.format.ledger.LedgerReplay;

/**
 * The changes that are kept on top of an opened design, and the design with them. The opened design
 * itself never changes. Immutable; undoing goes back to an earlier value.
 *
 * <p>Entries have no digests here: those are calculated when a ledger is written.
 */
public final class KeptChanges {
    private final Design original;
    private final List<LedgerEntry> entries;
    private final Design design;

    private KeptChanges(Design original, List<LedgerEntry> entries, Design design) {
        this.original = original;
        this.entries = entries.stream().map(LedgerEntry::unsigned).toList();
        this.design = design;
    }

    /** Nothing kept. */
    public static KeptChanges of(Design original) {
        return new KeptChanges(original, List.of(), original);
    }

    /**
     * Writes the design with what is kept to a file of its own, and reads that again.
     *
     * @param design the file of the design as it was opened
     * @return that nothing else has changed, or what has
     * @throws BadInput when it cannot be written there, or that is a file of the opened design
     * @throws CancellationException when {@code progress} says so; once it is written, it stays
     */
    ChangeAudit writeChanged(Path design, Path target, Progress progress) throws BadInput {
        References references = References.of(design).forCopy(design, target);
        progress.check();
        DesignWriter.write(design(), target, references.fabric(), references.board());
        return ChangeAudit.of(original(), entries(), DesignReader.read(target, progress), progress);
    }

    /**
     * The changes in a list of entries. O(what the entries touch).
     *
     * @param from the file that they come from, for faults
     * @throws BadInput when they do not fit the design
     */
    static KeptChanges of(Path from, List<LedgerEntry> entries, Design original) throws BadInput {
        Ledger ledger = new Ledger("", "", entries);
        if (ledger.applyTo(original) instanceof Ledger.Applied.Clashes clashes) {
            Ledger.Clash first = clashes.all().get(0);
            throw new BadInput(
                    BadInput.Kind.DOES_NOT_FIT,
                    from.toString(),
                    "$.entries[" + first.index() + "]",
                    "a change that fits this design (" + first.entry().what() + ")",
                    String.join("; ", first.reasons()));
        }
        return of(original).withAll(entries);
    }

    /**
     * The entries of a ledger file.
     *
     * @param file the design's file; none for the demo and lessons, where only what each entry was
     *     kept on can be compared
     * @throws BadInput when it cannot be read, was made on another design, or does not give what it
     *     gave when it was kept
     */
    static KeptChanges open(Path ledger, Design original, Optional<Path> file, Progress progress)
            throws BadInput {
        Ledger read = LedgerReader.read(ledger, original.fabric(), progress);
        if (file.isPresent()) {
            LedgerReplay.checkFile(read, ledger, file.get());
        }
        LedgerReplay.applied(read, ledger, original);
        return of(original).withAll(read.entries());
    }

    /** The design as it was opened. */
    public Design original() {
        return original;
    }

    /** What is kept, oldest first. */
    public List<LedgerEntry> entries() {
        return entries;
    }

    /** The design with everything that is kept. */
    public Design design() {
        return design;
    }

    /**
     * With one more change. O(what it touches).
     *
     * @throws IllegalArgumentException when it does not fit
     */
    public KeptChanges with(LedgerEntry more) {
        return with(more, Outcome.apply(design, more.edits()));
    }

    /**
     * With one more change.
     *
     * @param withIt the design with it
     */
    KeptChanges with(LedgerEntry more, Design withIt) {
        List<LedgerEntry> all = new ArrayList<>(entries);
        all.add(LedgerLead.numbered(entries, more));
        return new KeptChanges(original, all, withIt);
    }

    /** The same changes with other leads on their lines. */
    KeptChanges withLeads(List<LedgerEntry> same) {
        return new KeptChanges(original, same, design);
    }

    /** The same entries, on the same design read again. */
    KeptChanges on(Design again) {
        return of(again).withAll(entries);
    }

    private KeptChanges withAll(List<LedgerEntry> more) {
        KeptChanges all = this;
        for (LedgerEntry entry : more) {
            all = all.with(entry);
        }
        return all;
    }

    /**
     * What undoing one of them would remove. O(what the entries touch).
     *
     * @param index index of the entry, from 0
     */
    public EntryRemoval undoing(int index) {
        return EntryRemoval.of(toLedger(), original, index);
    }

    /** What remains after that. O(what the entries touch). */
    public KeptChanges after(EntryRemoval undoing) {
        return of(original).withAll(undoing.rest().entries());
    }

    /** The same as a ledger, for reading only: it has no digests, not even of the design. */
    public Ledger toLedger() {
        return new Ledger(original.name(), "", entries);
    }

    /**
     * Replaces the entries of a ledger file with these.
     *
     * @param file the design file
     * @throws BadInput when it cannot be written, or belongs to another design
     */
    Ledger save(Path ledger, Path file) throws BadInput {
        return LedgerFile.change(
                ledger,
                file,
                original.fabric(),
                old -> EntrySigning.again(old.withEntries(entries), original));
    }
}
