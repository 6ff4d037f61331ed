package padward.change;

import java.util.List;

/**
 * One kept change.
 *
 * @param when when it was kept, ISO 8601
 * @param who who kept it
 * @param note why, in the user's words; may be empty
 * @param net the net that it was for
 * @param pad the pad that it was for
 * @param edits what it does, in order
 * @param before digest of the design before it
 * @param after digest of the design after it
 */
public record LedgerEntry(
        String when,
        String who,
        String note,
        String net,
        String pad,
        List<Edit> edits,
        String before,
        String after) {
    /** Copies the edits. */
    public LedgerEntry {
        edits = List.copyOf(edits);
    }

    /** The same entry with other edits, between other states of the design. */
    public LedgerEntry with(List<Edit> others, String digestBefore, String digestAfter) {
        return new LedgerEntry(when, who, note, net, pad, others, digestBefore, digestAfter);
    }

    /** What it was for, in a few words. */
    public String what() {
        return net + " on " + pad;
    }
}
