package padward.fabric.pad;

/**
 * What a fabric says of the enable of a pad's driver.
 *
 * @param active the level that switches the driver on
 * @param unconnected what the driver does while nothing is connected to its enable
 */
public record PadEnable(Active active, Unconnected unconnected) {
    /** One of which nothing is said. */
    public static final PadEnable UNKNOWN = new PadEnable(Active.UNKNOWN, Unconnected.UNKNOWN);

    /** The level that switches a driver on. */
    public enum Active {
        /** A high level. */
        HIGH,
        /** A low level: a three-state input, as many data sheets draw it. */
        LOW,
        /** Not known. */
        UNKNOWN
    }

    /** What a driver does while its enable is not connected. */
    public enum Unconnected {
        /** It drives. */
        ON,
        /** It is high-impedance. */
        OFF,
        /** Not known: it must not be relied on. */
        UNKNOWN
    }
}
