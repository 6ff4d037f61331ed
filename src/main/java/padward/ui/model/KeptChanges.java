package padward.ui.model;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import padward.base.BadInput;
import padward.base.Progress;
import padward.change.Edit;
import padward.change.EntryRemoval;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.change.WhatIf;
import padward.design.Design;
import padward.format.ledger.EntrySigning;
import padward.format.ledger.LedgerFile;
import padward.format.ledger.LedgerReader;

/**
 * The trials that have been kept on top of an opened design. The opened design itself never
 * changes: what is shown is always that design with the kept edits applied to it. Immutable;
 * undoing is going back to the desk before.
 *
 * @param original the design as it was opened
 * @param kept what is kept, oldest first
 */
public record KeptChanges(Design original, List<Kept> kept) {
    /**
     * One kept trial.
     *
     * @param when when it was kept, ISO 8601
     * @param who who kept it
     * @param note why; may be empty
     * @param net the net that it was for
     * @param pad the pad that it was for
     * @param edits its edits
     */
    public record Kept(
            String when, String who, String note, String net, String pad, List<Edit> edits) {
        /** Copies the edits. */
        public Kept {
            edits = List.copyOf(edits);
        }

        /** One that whoever works here keeps, without a note. */
        public Kept(String when, String net, String pad, List<Edit> edits) {
            this(when, EntrySigning.user(), "", net, pad, edits);
        }

        /** What it was for, in a few words. */
        public String what() {
            return net + " on " + pad;
        }

        private static Kept of(LedgerEntry entry) {
            return new Kept(
                    entry.when(),
                    entry.who(),
                    entry.note(),
                    entry.net(),
                    entry.pad(),
                    entry.edits());
        }

        private LedgerEntry toUnsigned() {
            return new LedgerEntry(when, who, note, net, pad, edits, UNSIGNED, UNSIGNED);
        }
    }

    /** Stands for a digest that nobody has reckoned. */
    private static final String UNSIGNED = "-";

    /**
     * The desk that a ledger's file gives.
     *
     * @throws BadInput when it cannot be read, or does not fit the design
     */
    static KeptChanges open(Path ledger, Design original, Progress progress) throws BadInput {
        Ledger read = LedgerReader.read(ledger, original.fabric(), progress);
        return of(ledger, read.entries(), original);
    }

    /**
     * The desk that entries give.
     *
     * @param from where they stand
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
        return new KeptChanges(original, entries.stream().map(Kept::of).toList());
    }

    /**
     * Writes what is kept into a ledger's file, in place of what it held.
     *
     * @param design the design's file
     * @throws BadInput when it cannot be written, or belongs to another design
     */
    Ledger save(Path ledger, Path design) throws BadInput {
        return LedgerFile.change(
                ledger,
                design,
                original.fabric(),
                old -> EntrySigning.again(old.withEntries(toUnsigned()), original));
    }

    /** What is kept as a ledger's entries, without digests. */
    public List<LedgerEntry> toUnsigned() {
        return kept.stream().map(Kept::toUnsigned).toList();
    }

    /** What is kept as a ledger without digests, for whoever only looks. */
    public Ledger toLedger() {
        return new Ledger(original.name(), UNSIGNED, toUnsigned());
    }

    /**
     * What undoing one of them means, wherever it stands. O(kept × size of the design).
     *
     * @param index which, from 0
     */
    public EntryRemoval undoing(int index) {
        return EntryRemoval.of(toLedger(), original, index);
    }

    /** With what an undoing leaves. */
    public KeptChanges after(EntryRemoval undoing) {
        return new KeptChanges(original, undoing.rest().entries().stream().map(Kept::of).toList());
    }

    /** Copies the list. */
    public KeptChanges {
        kept = List.copyOf(kept);
    }

    /** A desk with nothing kept. */
    public static KeptChanges of(Design original) {
        return new KeptChanges(original, List.of());
    }

    /** The design with everything that is kept. O(size of the design). */
    public Design design() {
        Design design = original;
        for (Kept one : kept) {
            design = WhatIf.of(design, one.edits());
        }
        return design;
    }

    /** Keeps one more. */
    public KeptChanges keeping(Kept more) {
        List<Kept> all = new ArrayList<>(kept);
        all.add(more);
        return new KeptChanges(original, all);
    }
}
