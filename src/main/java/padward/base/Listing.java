package padward.base;

import java.util.Collection;
import java.util.List;
import java.util.stream.Collectors;

/** Names in a sentence, one after the other. */
public final class Listing {
    private Listing() {}

    /**
     * All of them: {@code a}, {@code a and b}, {@code a, b and c}.
     *
     * @throws IllegalArgumentException when there are none
     */
    public static String all(List<String> names) {
        if (names.isEmpty()) {
            throw new IllegalArgumentException("no names to list");
        }
        int last = names.size() - 1;
        return last == 0
                ? names.get(0)
                : String.join(", ", names.subList(0, last)) + " and " + names.get(last);
    }

    /** The first of them, and how many more there are: {@code a, b and 3 more}. */
    public static String first(Collection<String> names, int most) {
        String few = names.stream().limit(most).collect(Collectors.joining(", "));
        int more = names.size() - most;
        return more > 0 ? few + " and " + more + " more" : few;
    }
}
