package padward.api;

import java.util.List;

/**
 * Who keeps a change, why, and what they accept.
 *
 * @param who a name
 * @param note for later readers; may be empty
 * @param accepted the words that {@link Finding#toAccept} names
 */
public record Signature(String who, String note, List<String> accepted) {
    /** Copies the words. */
    public Signature {
        accepted = List.copyOf(accepted);
    }

    /** Of somebody who accepts nothing. */
    public static Signature of(String who) {
        return new Signature(who, "", List.of());
    }

    /** The same with a note. */
    public Signature noting(String text) {
        return new Signature(who, text, accepted);
    }

    /** The same, accepting what these words mean. */
    public Signature accepting(List<String> words) {
        return new Signature(who, note, words);
    }
}
