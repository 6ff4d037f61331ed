package padward.ui;

/** From which scale on the map draws what, pixels a tile. */
final class Scales {
    /** Boxes, sites, and how full channels are; below, tiles are plain, the fuller the darker. */
    static final double PARTS = 26;

    /** Pads; below, there is no room for them. */
    static final double PADS = 4;

    /** Kinds of tile by name, in their corners. */
    static final double KINDS = 46;

    /** Single wires. */
    static final double WIRES = 70;

    /** Names, and pins. */
    static final double NAMES = 190;

    /** All switches of a box. */
    static final double SWITCHES = 300;

    private Scales() {}
}
