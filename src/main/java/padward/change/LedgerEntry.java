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
 * @param accepted what somebody accepted explicitly: words for what it does on the board
 * @param leads the instrument's leads on the lines that it brings out
 * @param digests of the design before and after it; empty until it is written to a ledger
 */
public record LedgerEntry(
        String when,
        String who,
        String note,
        String net,
        String pad,
        List<Edit> edits,
        List<Acceptance> accepted,
        List<LedgerLead> leads,
        Optional<Digests> digests) {
    /**
     * A consequence on the board that somebody accepted.
     *
     * @param what the word for it, such as {@code follows}
     * @param who who accepted it
     * @param when when, ISO 8601
     */
    public record Acceptance(String what, String who, String when) {
        /** As a person reads it: {@code follows, by anna, 2026-11-27T10:00:00Z}. */
        public String toText() {
            return what + ", by " + who + ", " + when;
        }
    }

    /**
     * Digests of the design.
     *
     * @param before without the change
     * @param after with it
     */
    public record Digests(String before, String after) {}

    /** Copies the lists. */
    public LedgerEntry {
        edits = List.copyOf(edits);
        accepted = List.copyOf(accepted);
        leads = List.copyOf(leads);
    }

    /** An entry for which nothing had to be accepted, without digests. */
    public LedgerEntry(
            String when, String who, String note, String net, String pad, List<Edit> edits) {
        this(when, who, note, net, pad, edits, List.of(), List.of(), Optional.empty());
    }

    /** The same entry between these states of the design. */
    public LedgerEntry signed(String before, String after) {
        return new LedgerEntry(
                when,
                who,
                note,
                net,
                pad,
                edits,
                accepted,
                leads,
                Optional.of(new Digests(before, after)));
    }

    /** The same entry with what the one who keeps it accepts. */
    public LedgerEntry accepting(List<String> words) {
        return withAccepted(words.stream().map(w -> new Acceptance(w, who, when)).toList());
    }

    /** The same entry with another note. */
    public LedgerEntry withNote(String text) {
        return new LedgerEntry(when, who, text, net, pad, edits, accepted, leads, digests);
    }

    /** The same entry with other acceptances. */
    public LedgerEntry withAccepted(List<Acceptance> all) {
        return new LedgerEntry(when, who, note, net, pad, edits, all, leads, digests);
    }

    /** The same entry with other leads. */
    public LedgerEntry withLeads(List<LedgerLead> all) {
        return new LedgerEntry(when, who, note, net, pad, edits, accepted, all, digests);
    }

    /** The lead on the line that a port brings out. */
    public Optional<LedgerLead> findLead(String port) {
        return leads.stream().filter(l -> l.port().equals(port)).findFirst();
    }

    /** The same entry without digests, for places where the states of the design change. */
    public LedgerEntry unsigned() {
        return new LedgerEntry(when, who, note, net, pad, edits, accepted, leads, Optional.empty());
    }

    /** What it was for, in a few words. */
    public String what() {
        return net + " on " + pad;
    }
}
