package padward.ui.scene;

/** The scales from which the map draws things, pixels per tile. */
public final class ZoomScales {
    /**
     * Boxes, sites, and how full channels are; below, tiles are plain, darker the fuller they are.
     */
    public static final double PARTS = 26;

    /** Pads; below, they are only dots. */
    public static final double PADS = 4;

    /** Names of the kinds of tile. */
    public static final double KINDS = 46;

    /** Single wires. */
    public static final double WIRES = 70;

    /** Names, and pins. */
    public static final double NAMES = 190;

    /** All switches of a box. */
    public static final double SWITCHES = 300;

    /** The inside of boxes, as a diagram. */
    public static final double BOX = 1300;

    private ZoomScales() {}
}
