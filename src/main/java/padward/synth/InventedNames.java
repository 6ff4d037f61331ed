package padward.synth;

/** Invented hierarchical names. */
final class InventedNames {
    private static final String[] UNITS = {
        "pump", "valve", "heater", "meter", "gate", "lamp", "fan", "mixer", "logbook", "alarm",
        "scale", "feeder", "cooler", "filter", "winch", "siren"
    };
    private static final String[] PARTS = {
        "phase", "level", "count", "limit", "guard", "timer", "window", "sum", "frame", "step",
        "shift", "trend", "ramp", "queue", "mark", "store"
    };
    private static final String[] SIGNALS = {
        "acc", "next", "state", "sample", "match", "carry", "edge", "seen", "late", "load", "mix",
        "peak", "tick", "mask", "part", "turn"
    };

    /** Members of one vector. */
    static final int VECTOR = 8;

    private InventedNames() {}

    /**
     * The name of node {@code i}: eight nodes form a vector; vectors are grouped in parts, parts in
     * units.
     */
    static String node(int i) {
        int vector = i / VECTOR;
        int part = vector / SIGNALS.length;
        int unit = part / PARTS.length;
        return UNITS[unit % UNITS.length]
                + number(unit / UNITS.length)
                + "/"
                + PARTS[part % PARTS.length]
                + "/"
                + SIGNALS[vector % SIGNALS.length]
                + "["
                + i % VECTOR
                + "]";
    }

    private static String number(int n) {
        return n == 0 ? "" : String.valueOf(n + 1);
    }
}
