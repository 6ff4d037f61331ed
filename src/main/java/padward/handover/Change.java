package padward.handover;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;

/**
 * One elementary change of a design, small enough for any environment to carry out.
 *
 * @param what the kind of change
 * @param facts its properties, by the names of {@link ChangeList#COLUMNS}; those that do not apply
 *     are missing
 */
public record Change(What what, Map<String, String> facts) {
    /** Keeps the order of the facts. */
    public Change {
        facts = Collections.unmodifiableMap(new LinkedHashMap<>(facts));
    }

    /** Kinds of elementary change, in the order in which they must be carried out. */
    public enum What {
        /** The enable of a pad's driver is no longer tied. */
        ENABLE_UNTIED,
        /** A switch, fixed connection or pass-through that a net no longer uses. */
        OFF,
        /** A net loses a sink. */
        END_GONE,
        /** A net is removed. */
        NET_GONE,
        /** A port is removed. */
        PORT_GONE,
        /** A cell is removed. */
        CELL_GONE,
        /** A cell is relocated to another site. */
        CELL_MOVED,
        /** A cell is placed on a site. */
        CELL_NEW,
        /** A cell's setting changes. */
        CELL_SET,
        /** A port is added on a pad. */
        PORT_NEW,
        /** A net is added. */
        NET_NEW,
        /** A switch, fixed connection or pass-through that a net uses now. */
        ON,
        /** A net gets another sink. */
        END_NEW,
        /** A pad's driver gets another setting. */
        DRIVER_SET,
        /** The enable of a pad's driver is tied on. */
        ENABLE_TIED;

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
