package padward.change;

import java.util.ArrayList;
import java.util.List;
import padward.design.Design;

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

    /** With one more entry; its lines get channels after those that are taken. */
    public Ledger with(LedgerEntry entry) {
        List<LedgerEntry> all = new ArrayList<>(entries);
        all.add(LedgerLead.numbered(entries, entry));
        return new Ledger(design, digest, all);
    }

    /** The same file's ledger with other entries. */
    public Ledger withEntries(List<LedgerEntry> others) {
        return new Ledger(design, digest, others);
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
         * Some entries do not fit the design.
         *
         * @param all those that do not, at least one, in the ledger's order; each was tried on the
         *     design with those before it that do
         */
        record Clashes(List<Clash> all) implements Applied {
            /** Copies the clashes. */
            public Clashes {
                all = List.copyOf(all);
            }
        }
    }

    /**
     * An entry that does not fit.
     *
     * @param index which entry, from 0
     * @param entry the entry
     * @param reasons what stands against it, in words; not empty
     */
    public record Clash(int index, LedgerEntry entry, List<String> reasons) {
        /** Copies the reasons. */
        public Clash {
            reasons = List.copyOf(reasons);
        }
    }

    /**
     * Applies all entries to a design, which may be another run than the ledger was made on. Every
     * entry is checked before it is applied; one that does not fit is left out, and those after it
     * are checked all the same. O(what the entries touch).
     */
    public Applied applyTo(Design base) {
        EntryReplay replay = new EntryReplay(base);
        List<Clash> clashes = new ArrayList<>();
        for (int i = 0; i < entries.size(); i++) {
            List<String> reasons = replay.add(entries.get(i).edits());
            if (!reasons.isEmpty()) {
                clashes.add(new Clash(i, entries.get(i), reasons));
            }
        }
        return clashes.isEmpty() ? new Applied.Fits(replay.design()) : new Applied.Clashes(clashes);
    }
}
