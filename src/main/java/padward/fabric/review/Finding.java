package padward.fabric.review;

import java.util.List;

/**
 * Things that are valid but seldom meant.
 *
 * @param kind their kind
 * @param names the names of all of them; empty where it is no single things
 * @param text all in one sentence, with the first names
 */
public record Finding(Oddity kind, List<String> names, String text) {
    /** Names in a sentence. */
    private static final int LISTED = 3;

    /** Copies the list. */
    public Finding {
        names = List.copyOf(names);
    }

    /** Things with names, at least one. */
    public static Finding of(Oddity kind, List<String> names) {
        String first = String.join(", ", names.subList(0, Math.min(LISTED, names.size())));
        String more = names.size() > LISTED ? ", …; all: check --all " + kind.word() : "";
        return new Finding(
                kind, names, kind.what() + ": " + names.size() + " (" + first + more + ")");
    }

    /** No single things, but something about all of them. */
    public static Finding of(Oddity kind, String more) {
        return new Finding(kind, List.of(), kind.what() + more);
    }
}
