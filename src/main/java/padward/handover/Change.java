package padward.handover;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Stream;

/**
 * One elementary change of a design, small enough for any environment to carry out.
 *
 * @param what the kind of change
 * @param facts its properties, by the names of {@link ChangeList#COLUMNS}; those that do not apply
 *     are missing
 */
public record Change(What what, Map<String, String> facts) {
    /**
     * Keeps the order of the facts.
     *
     * @throws IllegalArgumentException when a fact is missing, or is none that such a change has
     */
    public Change {
        facts = Collections.unmodifiableMap(new LinkedHashMap<>(facts));
        if (!facts.keySet().containsAll(what.needed)
                || !Stream.concat(what.needed.stream(), what.possible.stream())
                        .toList()
                        .containsAll(facts.keySet())) {
            throw new IllegalArgumentException(what + " with " + facts.keySet());
        }
    }

    /** Kinds of elementary change, in the order in which they must be carried out. */
    public enum What {
        /** The enable of a pad's driver is no longer tied. */
        ENABLE_UNTIED(List.of("pad"), List.of("packagePin", "site", "value")),
        /** A switch, fixed connection or pass-through that a net no longer uses. */
        OFF(List.of("from", "to", "edge"), List.of("tile", "fromThere", "toThere")),
        /** A net loses a sink. */
        END_GONE(List.of("end"), List.of()),
        /** A net is removed. */
        NET_GONE(List.of(), List.of()),
        /** A port is removed. */
        PORT_GONE(List.of("pad", "direction"), List.of("packagePin", "setting")),
        /** A cell is removed. */
        CELL_GONE(List.of("site"), List.of()),
        /** A cell is relocated to another site. */
        CELL_MOVED(List.of("site", "before"), List.of()),
        /** A cell is placed on a site. */
        CELL_NEW(List.of("site", "kind"), List.of()),
        /** A cell's setting changes. */
        CELL_SET(List.of("setting"), List.of("site", "value", "before")),
        /** A port is added on a pad. */
        PORT_NEW(List.of("pad", "direction"), List.of("packagePin", "setting")),
        /** A net is added. */
        NET_NEW(List.of("end"), List.of("value")),
        /** A switch, fixed connection or pass-through that a net uses now. */
        ON(List.of("from", "to", "edge"), List.of("tile", "fromThere", "toThere")),
        /** A net gets another sink. */
        END_NEW(List.of("end"), List.of("setting", "before")),
        /** A pad's driver gets another setting. */
        DRIVER_SET(List.of("pad"), List.of("packagePin", "setting", "before")),
        /** The enable of a pad's driver is tied on. */
        ENABLE_TIED(List.of("pad"), List.of("packagePin", "site", "value"));

        private final List<String> needed;
        private final List<String> possible;

        What(List<String> needed, List<String> possible) {
            this.needed = Stream.concat(Stream.of("name"), needed.stream()).toList();
            this.possible = possible;
        }

        /** The facts that each of these has. */
        public List<String> needed() {
            return needed;
        }

        /** The facts that some of these have. */
        public List<String> possible() {
            return possible;
        }

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
