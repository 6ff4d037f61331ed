package padward.fabric.pad;

/** In which direction signals can cross a pad, seen from the chip. */
public enum PadDirections {
    /** Into the chip only: the pad has no driver. */
    IN,
    /** Out of the chip only. */
    OUT,
    /** Both directions. */
    BOTH;

    /** Whether the chip can drive the pad. */
    public boolean canDrive() {
        return this != IN;
    }

    /** Whether signals can come into the chip over the pad. */
    public boolean canRead() {
        return this != OUT;
    }
}
