package padward.format.source;

/**
 * The greatest numbers that a file may state beyond those of {@link padward.fabric.FabricLimits}.
 * They are listed in {@code docs/formats.md}.
 */
public final class FileLimits {
    /** Switches, fixed connections and pass-throughs of an explicit fabric. */
    public static final int EDGES = 1_000_000_000;

    /** Characters of a note. */
    public static final int NOTE = 100_000;

    /** Millivolts of a bank, milliamperes of a driver. */
    public static final int ELECTRIC = 1_000_000;

    /** Length of a trace, mm. */
    public static final int TRACE_MM = 100_000;

    /** Load of a pad, pF. */
    public static final int LOAD_PF = 100_000;

    /** Ohms, femtofarads. */
    public static final int OHMS = 10_000_000;

    /** Channels of an instrument. */
    public static final int CHANNELS = 100_000;

    /** Characters of a lead's name, pod or colour. */
    public static final int LEAD_WORD = 100;

    /** Length of a lead, metres. */
    public static final int LEAD_METRES = 100;

    /** Pins of a header. */
    public static final int HEADER_PINS = 999;

    /** Required time of a net, ps: a millisecond. */
    public static final int REQUIRED_PS = 1_000_000_000;

    /** Measured delay of a line, either way, ps. */
    public static final int MEASURED_PS = 1_000_000_000;

    /** Bits that the connections of a netlist's file name: at pins and in assignments. */
    public static final int NETLIST_BITS = 20_000_000;

    /** The same once each module of it is replaced by its contents. */
    public static final int FLAT_PIN_BITS = 50_000_000;

    /** Bits of all ports of a package's file. */
    public static final int PACKAGE_BITS = 100_000;

    /** Brackets inside brackets. The formats need 8. */
    public static final int NESTING = 64;

    private FileLimits() {}
}
