package padward.format.ledger;

import java.util.ArrayList;
import java.util.List;
import padward.base.TimeStamp;
import padward.change.Edit;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.change.Outcome;
import padward.design.Design;
import padward.format.design.Digest;
import padward.format.source.FileLimits;

/** Adds names, times and digests to kept changes. */
public final class EntrySigning {
    /** A group is named by all its nets; the first few are enough to recognise it. */
    private static final int LONGEST = 300;

    private EntrySigning() {}

    /** The name of the user, from the operating system. */
    public static String user() {
        String name = System.getProperty("user.name", "");
        return name.isBlank() ? "unknown" : name;
    }

    /**
     * A new entry. O(size of the design).
     *
     * @param before the design that the edits are made for
     * @param net the net that it is for
     * @param pad the pad that it is for
     * @param who who makes the entry; blank for unknown
     * @throws IllegalArgumentException when the edits do not fit the design
     */
    public static LedgerEntry entry(
            Design before, String net, String pad, List<Edit> edits, String who, String note) {
        return new LedgerEntry(
                        TimeStamp.now(),
                        who.isBlank() ? "unknown" : line(who),
                        note.substring(0, Math.min(note.length(), FileLimits.NOTE)),
                        line(net),
                        line(pad),
                        edits)
                .signed(Digest.of(before), Digest.of(Outcome.apply(before, edits)));
    }

    /** A new entry of the present user, without a note and without digests. */
    public static LedgerEntry unsigned(String net, String pad, List<Edit> edits) {
        return new LedgerEntry(TimeStamp.now(), user(), "", line(net), line(pad), edits);
    }

    /** A text that can be read as a name, so that the ledger can be read again. */
    private static String line(String text) {
        String plain = text.replaceAll("\\p{Cntrl}", " ");
        return plain.length() <= LONGEST ? plain : plain.substring(0, LONGEST) + "…";
    }

    /**
     * A ledger whose entries have changed, with the digests that are true now. O(entries × size of
     * the design).
     *
     * @param base the design without the ledger
     * @throws IllegalArgumentException when an entry does not fit
     */
    public static Ledger again(Ledger ledger, Design base) {
        List<LedgerEntry> entries = new ArrayList<>();
        Design now = base;
        String digest = Digest.of(now);
        for (LedgerEntry entry : ledger.entries()) {
            now = Outcome.apply(now, entry.edits());
            String after = Digest.of(now);
            entries.add(entry.signed(digest, after));
            digest = after;
        }
        return ledger.withEntries(entries);
    }
}
