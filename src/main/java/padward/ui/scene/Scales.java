package padward.ui.scene;

/** From which scale on the map draws what, pixels a tile. */
public final class Scales {
    /** Boxes, sites, and how full channels are; below, tiles are plain, the fuller the darker. */
    public static final double PARTS = 26;

    /** Pads; below, there is no room for them. */
    public static final double PADS = 4;

    /** Kinds of tile by name, in their corners. */
    public static final double KINDS = 46;

    /** Single wires. */
    public static final double WIRES = 70;

    /** Names, and pins. */
    public static final double NAMES = 190;

    /** All switches of a box. */
    public static final double SWITCHES = 300;

    private Scales() {}
}
