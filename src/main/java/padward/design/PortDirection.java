package padward.design;

import java.util.Locale;

/** Which way a port's signal goes, seen from the chip. */
public enum PortDirection {
    /** Into the chip: the board drives the pad. */
    IN,
    /** Out of the chip. */
    OUT,
    /** Both ways. */
    BOTH;

    /** The word used in files and on screens. */
    public String label() {
        return name().toLowerCase(Locale.ROOT);
    }
}
