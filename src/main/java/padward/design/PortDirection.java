package padward.design;

import java.util.Locale;

/** The direction of a port's signal, seen from the chip. */
public enum PortDirection {
    /** Into the chip: the board drives the pad. */
    IN,
    /** Out of the chip. */
    OUT,
    /** In and out. */
    BOTH;

    /** The word used in files and on screens. */
    public String label() {
        return name().toLowerCase(Locale.ROOT);
    }
}
