package padward.ui;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Design;
import padward.design.Edit;
import padward.design.Ledger;
import padward.design.LedgerEntry;
import padward.design.Trial;
import padward.format.Digest;
import padward.format.LedgerFile;
import padward.format.LedgerReader;

/**
 * The trials that have been kept on top of an opened design. The opened design itself never
 * changes: what is shown is always that design with the kept edits applied to it. Immutable;
 * undoing is going back to the desk before.
 *
 * @param original the design as it was opened
 * @param kept what is kept, oldest first
 */
public record TrialDesk(Design original, List<Kept> kept) {
    /**
     * One kept trial.
     *
     * @param when when it was kept, ISO 8601
     * @param net the net that it was for
     * @param pad the pad that it was for
     * @param edits its edits
     */
    public record Kept(String when, String net, String pad, List<Edit> edits) {
        /** Copies the edits. */
        public Kept {
            edits = List.copyOf(edits);
        }

        /** What it was for, in a few words. */
        public String what() {
            return net + " on " + pad;
        }
    }

    /** What a ledger holds, on a design that it fits. */
    public static TrialDesk of(Design original, Ledger ledger) {
        List<Kept> kept = new ArrayList<>();
        ledger.entries().forEach(e -> kept.add(new Kept(e.when(), e.net(), e.pad(), e.edits())));
        return new TrialDesk(original, kept);
    }

    /**
     * The desk that a ledger's file gives.
     *
     * @throws BadInput when it cannot be read, or does not fit the design
     */
    static TrialDesk open(Path ledger, Design original, Progress progress) throws BadInput {
        Ledger read = LedgerReader.read(ledger, original.fabric(), progress);
        if (read.applyTo(original) instanceof Ledger.Applied.Clashes clashes) {
            throw new BadInput(
                    ledger.toString(),
                    "$.entries[" + clashes.all().get(0).index() + "]",
                    "a change that fits this design",
                    String.join("; ", clashes.all().get(0).reasons()));
        }
        return of(original, read);
    }

    /**
     * Writes what is kept into a ledger's file, in place of what it held.
     *
     * @param design the design's file
     * @throws BadInput when it cannot be written, or belongs to another design
     */
    Ledger save(Path ledger, Path design) throws BadInput {
        List<LedgerEntry> entries = toEntries(System.getProperty("user.name", "unknown"));
        return LedgerFile.change(
                ledger,
                design,
                original.fabric(),
                old -> new Ledger(old.design(), old.digest(), entries));
    }

    /** What is kept as a ledger's entries. O(kept × size of the design). */
    List<LedgerEntry> toEntries(String who) throws BadInput {
        List<LedgerEntry> entries = new ArrayList<>();
        Design now = original;
        for (Kept one : kept) {
            String before = Digest.of(now);
            now = Trial.of(now, one.edits());
            entries.add(
                    new LedgerEntry(
                            one.when(),
                            who,
                            "",
                            one.net(),
                            one.pad(),
                            one.edits(),
                            before,
                            Digest.of(now)));
        }
        return entries;
    }

    /** Copies the list. */
    public TrialDesk {
        kept = List.copyOf(kept);
    }

    /** A desk with nothing kept. */
    public static TrialDesk of(Design original) {
        return new TrialDesk(original, List.of());
    }

    /** The design with everything that is kept. O(size of the design). */
    public Design design() {
        Design design = original;
        for (Kept one : kept) {
            design = Trial.of(design, one.edits());
        }
        return design;
    }

    /** Keeps one more. */
    public TrialDesk keeping(Kept more) {
        List<Kept> all = new ArrayList<>(kept);
        all.add(more);
        return new TrialDesk(original, all);
    }
}
