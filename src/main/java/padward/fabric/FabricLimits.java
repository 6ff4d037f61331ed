package padward.fabric;

/** Sizes beyond which input is refused rather than half understood. Stated in docs/formats.md. */
public final class FabricLimits {
    private FabricLimits() {}

    /** Most tiles along one side of the grid. */
    public static final int GRID_SIDE = 10_000;

    /** Most vertices of one fabric. */
    public static final int VERTICES = 200_000_000;

    /** Most members of one group of wires, sites, pins or pads in a tile type. */
    public static final int GROUP = 4_096;

    /** Most wires, pins and pads of one tile type. */
    public static final int TILE_VERTICES = 1_000_000;

    /** Most switches, fixed connections and pass-throughs of all tile types of a pattern. */
    public static final int TILE_CONNECTIONS = 2_000_000;

    /** Longest name, characters. */
    public static final int NAME_LENGTH = 1_000;

    /** Longest delay of one edge, picoseconds. */
    public static final int EDGE_DELAY_PS = 1_000_000;
}
