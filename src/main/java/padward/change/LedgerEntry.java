package padward.change;

import java.util.List;
import java.util.Optional;

/**
 * One kept change: in a ledger, in the window, in a lesson.
 *
 * @param when when it was kept, ISO 8601
 * @param who who kept it
 * @param note why, in the user's words; may be empty
 * @param net the net that it was for
 * @param pad the pad that it was for
 * @param edits what it does, in order
 * @param digests of the design before and after it; empty until it is written to a ledger
 */
public record LedgerEntry(
        String when,
        String who,
        String note,
        String net,
        String pad,
        List<Edit> edits,
        Optional<Digests> digests) {
    /**
     * Digests of the design.
     *
     * @param before without the change
     * @param after with it
     */
    public record Digests(String before, String after) {}

    /** Copies the edits. */
    public LedgerEntry {
        edits = List.copyOf(edits);
    }

    /** An entry without digests. */
    public LedgerEntry(
            String when, String who, String note, String net, String pad, List<Edit> edits) {
        this(when, who, note, net, pad, edits, Optional.empty());
    }

    /** The same entry between these states of the design. */
    public LedgerEntry signed(String before, String after) {
        return new LedgerEntry(
                when, who, note, net, pad, edits, Optional.of(new Digests(before, after)));
    }

    /** The same entry without digests, for places where the states of the design change. */
    public LedgerEntry unsigned() {
        return new LedgerEntry(when, who, note, net, pad, edits);
    }

    /** What it was for, in a few words. */
    public String what() {
        return net + " on " + pad;
    }
}
