package padward.format.json;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

/** The members that an object may have and those that it must have; at most 64. */
public final class JsonShape {
    private final List<String> names;
    private final long required;

    private JsonShape(List<String> names, long required) {
        this.names = List.copyOf(names);
        this.required = required;
    }

    /** The members' names; a {@code !} after a name says that the member is required. */
    public static JsonShape of(String... names) {
        List<String> plain = new ArrayList<>();
        long required = 0;
        for (String name : names) {
            boolean must = name.endsWith("!");
            required |= must ? 1L << plain.size() : 0;
            plain.add(must ? name.substring(0, name.length() - 1) : name);
        }
        return new JsonShape(plain, required);
    }

    /**
     * The number of a member, -1 for one that is not known.
     *
     * @param guess where it is looked for first, at most the number of members
     */
    int indexOf(String name, int guess) {
        for (int i = guess; i < names.size(); i++) {
            if (names.get(i).equals(name)) {
                return i;
            }
        }
        int before = names.indexOf(name);
        return before < guess ? before : -1;
    }

    /** The names in order. */
    public Iterable<String> names() {
        return names;
    }

    /** All names, for a suggestion. */
    Stream<String> nameStream() {
        return names.stream();
    }

    /** Whether the members seen, as bits, include all that are required. */
    boolean complete(long seen) {
        return (required & ~seen) == 0;
    }

    /** The first required member that is not among those seen. */
    String firstMissing(long seen) {
        return names.get(Long.numberOfTrailingZeros(required & ~seen));
    }
}
