package padward.ui.model;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import padward.design.Glob;

/** Names for a typed text: those that begin with it, then those that contain or match it. */
public final class Suggestions {
    /** Greatest number of suggestions. */
    static final int MOST = 12;

    private Suggestions() {}

    /** The same with recently used names first; only these while nothing is typed. */
    public static List<String> of(String typed, List<String> names, List<String> recent) {
        List<String> lately = of(typed, recent);
        List<String> others = typed.isBlank() && !lately.isEmpty() ? List.of() : of(typed, names);
        return Stream.concat(lately.stream(), others.stream()).distinct().limit(MOST).toList();
    }

    /** The first matching names, those that begin with the text before the others. */
    static List<String> of(String typed, List<String> names) {
        String text = typed.strip().toLowerCase(Locale.ROOT);
        boolean pattern = text.contains("*") || text.contains("?");
        Glob glob = Glob.of("*" + text + "*");
        List<String> first = new ArrayList<>();
        List<String> later = new ArrayList<>();
        for (String name : names) {
            String lower = name.toLowerCase(Locale.ROOT);
            if (!pattern && lower.startsWith(text)) {
                first.add(name);
            } else if (later.size() < MOST
                    && (pattern ? glob.matches(lower) : lower.contains(text))) {
                later.add(name);
            }
            if (first.size() == MOST) {
                break;
            }
        }
        first.addAll(later);
        return first.stream().limit(MOST).toList();
    }
}
