package padward.change;

import java.util.Comparator;
import java.util.Locale;

/**
 * A net, cell or port of a design, by name.
 *
 * @param kind what it is
 * @param name its name
 */
public record Part(Kind kind, String name) implements Comparable<Part> {
    private static final Comparator<Part> ORDER =
            Comparator.comparing(Part::kind).thenComparing(Part::name);

    /** Kinds of part. */
    public enum Kind {
        /** A net. */
        NET,
        /** A cell. */
        CELL,
        /** A port. */
        PORT;

        /** The word used in files and on screens. */
        public String label() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    @Override
    public int compareTo(Part other) {
        return ORDER.compare(this, other);
    }
}
