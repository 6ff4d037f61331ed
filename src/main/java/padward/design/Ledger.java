package padward.design;

import java.util.ArrayList;
import java.util.List;

/**
 * The changes kept on top of a design's file, in their order. Immutable.
 *
 * @param design name of the design's file
 * @param digest SHA-256 of that file's bytes, in hexadecimal digits
 * @param entries the kept changes, oldest first
 */
public record Ledger(String design, String digest, List<LedgerEntry> entries) {
    /** Copies the entries. */
    public Ledger {
        entries = List.copyOf(entries);
    }

    /** With one more entry. */
    public Ledger with(LedgerEntry entry) {
        List<LedgerEntry> all = new ArrayList<>(entries);
        all.add(entry);
        return new Ledger(design, digest, all);
    }

    /** Without one of its entries; whether the others still fit has to be tried. */
    public Ledger without(int index) {
        List<LedgerEntry> all = new ArrayList<>(entries);
        all.remove(index);
        return new Ledger(design, digest, all);
    }

    /** What came of applying a ledger. */
    public sealed interface Applied {
        /**
         * All entries fit.
         *
         * @param design the design with all of them
         */
        record Fits(Design design) implements Applied {}

        /**
         * An entry does not fit the design; those before it do.
         *
         * @param index which entry, from 0
         * @param reasons what stands against it, in words
         */
        record Clashes(int index, List<String> reasons) implements Applied {}
    }

    /**
     * Applies all entries to a design, which may be another run than the ledger was made on. Every
     * entry is checked before it is applied. O(entries × size of the design).
     */
    public Applied applyTo(Design base) {
        Design design = base;
        for (int i = 0; i < entries.size(); i++) {
            List<String> reasons = EditCheck.against(design, entries.get(i).edits());
            if (!reasons.isEmpty()) {
                return new Applied.Clashes(i, reasons);
            }
            design = Trial.of(design, entries.get(i).edits());
        }
        return new Applied.Fits(design);
    }
}
