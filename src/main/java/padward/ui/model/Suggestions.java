package padward.ui.model;

import java.util.List;
import java.util.stream.Stream;
import padward.ui.design.SearchableNames;

/** Names for a typed text: those that begin with it, then those that contain or match it. */
public final class Suggestions {
    /** Greatest number of suggestions. */
    static final int MOST = 12;

    private Suggestions() {}

    /** The same with recently used names first; only these while nothing is typed. */
    public static List<String> of(String typed, SearchableNames names, List<String> recent) {
        List<String> lately = new SearchableNames(recent).find(typed, MOST);
        List<String> others =
                typed.isBlank() && !lately.isEmpty() ? List.of() : names.find(typed, MOST);
        return Stream.concat(lately.stream(), others.stream()).distinct().limit(MOST).toList();
    }

    /** As many of these as are suggested, each once; the first before the others. */
    public static List<String> first(List<String> names, List<String> others) {
        return Stream.concat(names.stream(), others.stream()).distinct().limit(MOST).toList();
    }
}
