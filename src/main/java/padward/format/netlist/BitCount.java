package padward.format.netlist;

import padward.format.source.FileLimits;

/** Counts the bits that a netlist's connections name: a short text can name any number. */
final class BitCount {
    static final String EXPECTED =
            "at most " + FileLimits.NETLIST_BITS + " bits at pins and in assignments";

    private long bits;

    /** Counts some more; whether that is more than a file may name. */
    boolean isTooMuchWith(int more) {
        bits += more;
        return bits > FileLimits.NETLIST_BITS;
    }
}
