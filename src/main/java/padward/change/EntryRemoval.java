package padward.change;

import java.util.ArrayList;
import java.util.List;
import padward.design.Design;

/**
 * An entry taken out of a ledger, wherever it stands, and what depends on it: the later entries
 * that do not fit any more once it, and those that depend on it, are gone.
 *
 * @param entry the entry
 * @param dependents what depends on it, in the ledger's order; their indices are those of the whole
 *     ledger
 * @param rest the ledger without the entry and without its dependents
 */
public record EntryRemoval(LedgerEntry entry, List<Ledger.Clash> dependents, Ledger rest) {
    /** Copies the dependents. */
    public EntryRemoval {
        dependents = List.copyOf(dependents);
    }

    /**
     * Works out what undoing an entry means. O(what the entries touch).
     *
     * @param base the design without the ledger
     * @param index which entry, from 0
     * @throws IndexOutOfBoundsException when there is no such entry
     */
    public static EntryRemoval of(Ledger ledger, Design base, int index) {
        LedgerEntry gone = ledger.entries().get(index);
        EntryReplay replay = new EntryReplay(base);
        List<LedgerEntry> rest = new ArrayList<>();
        List<Ledger.Clash> dependents = new ArrayList<>();
        for (int i = 0; i < ledger.entries().size(); i++) {
            if (i == index) {
                continue;
            }
            LedgerEntry entry = ledger.entries().get(i);
            List<String> reasons = replay.add(entry.edits());
            if (reasons.isEmpty()) {
                rest.add(entry);
            } else {
                dependents.add(new Ledger.Clash(i, entry, reasons));
            }
        }
        return new EntryRemoval(gone, dependents, ledger.withEntries(rest));
    }

    /** Whether it can be undone alone. */
    public boolean isAlone() {
        return dependents.isEmpty();
    }
}
