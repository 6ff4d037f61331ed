package padward.design;

/**
 * A port of the design on a pad.
 *
 * @param id dense number in the design
 * @param name name, {@code led[0]}
 * @param direction the direction of its signal
 * @param pad index of its pad in {@code fabric.pads()}
 * @param setting name of the pad driver's setting, {@code ""} for the pad's default
 * @param enableTied whether the enable of the pad's driver is tied to the level that switches it
 *     on; {@code false} also where the design does not say
 */
public record Port(
        int id, String name, PortDirection direction, int pad, String setting, boolean enableTied) {
    /** The word in files for an enable that is tied on. */
    public static final String TIED = "tied";

    /** A port of whose enable the design says nothing. */
    public Port(int id, String name, PortDirection direction, int pad, String setting) {
        this(id, name, direction, pad, setting, false);
    }

    /** The same port with another setting of its pad's driver. */
    public Port withSetting(String other) {
        return new Port(id, name, direction, pad, other, enableTied);
    }

    /** The same port with its pad's driver always on. */
    public Port withEnableTied() {
        return new Port(id, name, direction, pad, setting, true);
    }
}
