package padward.ui.model;

import java.util.List;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import padward.ui.design.SearchableNames;

/**
 * Names for a typed text: those that begin with it, then those that contain or match it.
 *
 * @param names each once; all that fit, but no more than {@link #COUNTED}
 */
public record Suggestions(List<String> names) {
    /** Greatest number of names that are seen at a glance. */
    public static final int AT_A_GLANCE = 12;

    /** Greatest number of names that are listed and counted. */
    public static final int COUNTED = 1_000;

    /** Copies the names, each once. */
    public Suggestions {
        names = names.stream().distinct().limit(COUNTED).toList();
    }

    /** Names with recently used ones first; only these while nothing is typed. */
    public static Suggestions of(String typed, SearchableNames names, List<String> recent) {
        List<String> lately = new SearchableNames(recent).find(typed, COUNTED);
        List<String> others =
                typed.isBlank() && !lately.isEmpty() ? List.of() : names.find(typed, COUNTED);
        return new Suggestions(lately).before(others);
    }

    /** With further names behind these. */
    public Suggestions before(List<String> others) {
        return new Suggestions(Stream.concat(names.stream(), others.stream()).toList());
    }

    /** The same names, spelt otherwise. */
    public Suggestions spelt(UnaryOperator<String> spelling) {
        return new Suggestions(names.stream().map(spelling).toList());
    }

    /** Whether there may be more names than are listed. */
    public boolean isCut() {
        return names.size() == COUNTED;
    }

    /** How many there are beyond those seen at a glance, in words; empty when there are none. */
    public String more() {
        int more = names.size() - AT_A_GLANCE;
        return more <= 0 ? "" : "… and " + (isCut() ? "at least " : "") + more + " more";
    }
}
