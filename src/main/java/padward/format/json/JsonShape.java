package padward.format.json;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.stream.Stream;

/** The members that an object may have and those that it must have; at most 64. */
public final class JsonShape {
    private final Map<String, Integer> indexByName = new LinkedHashMap<>();
    private long required;

    private JsonShape() {}

    /** The members' names; a {@code !} after a name says that the member is required. */
    public static JsonShape of(String... names) {
        JsonShape shape = new JsonShape();
        for (String name : names) {
            boolean must = name.endsWith("!");
            int index = shape.indexByName.size();
            shape.indexByName.put(must ? name.substring(0, name.length() - 1) : name, index);
            shape.required |= must ? 1L << index : 0;
        }
        return shape;
    }

    /** The number of a member, -1 for one that is not known. */
    int indexOf(String name) {
        return indexByName.getOrDefault(name, -1);
    }

    /** The names in order. */
    public Iterable<String> names() {
        return indexByName.keySet();
    }

    /** All names, for a suggestion. */
    Stream<String> nameStream() {
        return indexByName.keySet().stream();
    }

    /** Whether the members seen, as bits, include all that are required. */
    boolean complete(long seen) {
        return (required & ~seen) == 0;
    }

    /** The first required member that is not among those seen. */
    String firstMissing(long seen) {
        int index = Long.numberOfTrailingZeros(required & ~seen);
        return indexByName.keySet().stream().skip(index).findFirst().orElseThrow();
    }
}
