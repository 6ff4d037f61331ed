package padward.ui.model;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import padward.base.BadInput;
import padward.base.Progress;
import padward.change.EntryRemoval;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.change.Outcome;
import padward.design.Design;
import padward.format.ledger.EntrySigning;
import padward.format.ledger.LedgerFile;
import padward.format.ledger.LedgerReader;

/**
 * The changes that are kept on top of an opened design. The opened design itself never changes:
 * what is shown is always that design with the kept edits applied to it. Immutable; undoing goes
 * back to an earlier value.
 *
 * @param original the design as it was opened
 * @param entries what is kept, oldest first, without digests: those are calculated when a ledger is
 *     written
 */
public record KeptChanges(Design original, List<LedgerEntry> entries) {
    /**
     * The changes in a ledger file.
     *
     * @throws BadInput when it cannot be read, or does not fit the design
     */
    static KeptChanges open(Path ledger, Design original, Progress progress) throws BadInput {
        Ledger read = LedgerReader.read(ledger, original.fabric(), progress);
        return of(ledger, read.entries(), original);
    }

    /**
     * The changes in a list of entries.
     *
     * @param from the file that they come from, for faults
     * @throws BadInput when they do not fit the design
     */
    static KeptChanges of(Path from, List<LedgerEntry> entries, Design original) throws BadInput {
        Ledger ledger = new Ledger("", "", entries);
        if (ledger.applyTo(original) instanceof Ledger.Applied.Clashes clashes) {
            Ledger.Clash first = clashes.all().get(0);
            throw new BadInput(
                    from.toString(),
                    "$.entries[" + first.index() + "]",
                    "a change that fits this design (" + first.entry().what() + ")",
                    String.join("; ", first.reasons()));
        }
        return new KeptChanges(original, entries);
    }

    /**
     * Replaces the entries of a ledger file with these.
     *
     * @param design the design file
     * @throws BadInput when it cannot be written, or belongs to another design
     */
    Ledger save(Path ledger, Path design) throws BadInput {
        return LedgerFile.change(
                ledger,
                design,
                original.fabric(),
                old -> EntrySigning.again(old.withEntries(entries), original));
    }

    /** The same as a ledger, for reading only: it has no digests, not even of the design. */
    public Ledger toLedger() {
        return new Ledger(original.name(), "", entries);
    }

    /**
     * What undoing one of them would remove. O(entries × size of the design).
     *
     * @param index index of the entry, from 0
     */
    public EntryRemoval undoing(int index) {
        return EntryRemoval.of(toLedger(), original, index);
    }

    /** What remains after that. */
    public KeptChanges after(EntryRemoval undoing) {
        return new KeptChanges(original, undoing.rest().entries());
    }

    /** Drops the digests of the entries. */
    public KeptChanges {
        entries = entries.stream().map(LedgerEntry::unsigned).toList();
    }

    /** Nothing kept. */
    public static KeptChanges of(Design original) {
        return new KeptChanges(original, List.of());
    }

    /** The design with everything that is kept. O(size of the design). */
    public Design design() {
        Design design = original;
        for (LedgerEntry entry : entries) {
            design = Outcome.apply(design, entry.edits());
        }
        return design;
    }

    /** With one more change. */
    public KeptChanges with(LedgerEntry more) {
        List<LedgerEntry> all = new ArrayList<>(entries);
        all.add(more);
        return new KeptChanges(original, all);
    }
}
