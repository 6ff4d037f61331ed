package padward.handover;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;

/**
 * One elementary change of a design, small enough for any environment to carry out.
 *
 * @param what what it is
 * @param facts what is said of it, by the names of {@link ChangeList#COLUMNS}; what does not apply
 *     is missing
 */
public record Change(What what, Map<String, String> facts) {
    /** Keeps the order of the facts. */
    public Change {
        facts = Collections.unmodifiableMap(new LinkedHashMap<>(facts));
    }

    /** Kinds of elementary change, in the order in which they are to be carried out. */
    public enum What {
        /** A switch, fixed connection or pass-through that a net uses no longer. */
        OFF,
        /** A net has an end less. */
        END_GONE,
        /** A net is no more. */
        NET_GONE,
        /** A port is no more. */
        PORT_GONE,
        /** A cell is no more. */
        CELL_GONE,
        /** A cell stands on another site. */
        CELL_MOVED,
        /** A cell's setting differs. */
        CELL_SET,
        /** A port stands on a pad. */
        PORT_NEW,
        /** A switch, fixed connection or pass-through that a net uses now. */
        ON,
        /** A net has an end more. */
        END_NEW;

        /** The word used in files: {@code end-gone}. */
        public String label() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }

    /** A fact, empty when it does not apply. */
    public String get(String column) {
        return facts.getOrDefault(column, "");
    }
}
