package padward.fabric.pattern;

/**
 * The published switch-box topologies: which track of one side meets which track of another, for a
 * box with W tracks on each of its four sides. All are sets of undirected switches with three
 * switches per wire end (Fs = 3, Rose and Brown, IEEE JSSC 26(3), 1991, 277-282).
 */
public enum SwitchBoxTopology {
    /** Track t meets track t on every side. */
    DISJOINT,
    /** Chang, Wong, Wong, "Universal switch modules for FPGA design", ACM TODAES 1(1), 1996. */
    UNIVERSAL,
    /** Wilton, PhD thesis, University of Toronto, 1997; as in Masud and Wilton, FPL 1999. */
    WILTON;

    /**
     * The track on side {@code to} that meets track {@code track} of side {@code from}.
     *
     * @param track 0 to {@code width - 1}
     * @param width W, the number of tracks on each side, at least 1
     * @throws IllegalArgumentException when both sides are the same
     */
    public int map(Side from, Side to, int track, int width) {
        if (from == to) {
            throw new IllegalArgumentException("a switch box has no switch from a side to itself");
        }
        if (from == to.opposite()) {
            return track;
        }
        return switch (this) {
            case DISJOINT -> track;
            case UNIVERSAL -> universal(from, to, track, width);
            case WILTON -> wilton(from, to, track, width);
        };
    }

    /** Left-top and right-bottom are mirrored, the other corners keep the track. */
    private static int universal(Side from, Side to, int track, int width) {
        boolean mirrored =
                (isPair(from, to, Side.LEFT, Side.TOP))
                        || isPair(from, to, Side.RIGHT, Side.BOTTOM);
        return mirrored ? width - 1 - track : track;
    }

    private static boolean isPair(Side from, Side to, Side one, Side other) {
        return (from == one && to == other) || (from == other && to == one);
    }

    /**
     * Left to top -t, top to right t+1, right to bottom -t-2, bottom to left t-1; inverses back.
     */
    private static int wilton(Side from, Side to, int track, int width) {
        int image;
        if (isPair(from, to, Side.LEFT, Side.TOP)) {
            image = -track;
        } else if (from == Side.TOP && to == Side.RIGHT) {
            image = track + 1;
        } else if (from == Side.RIGHT && to == Side.TOP) {
            image = track - 1;
        } else if (isPair(from, to, Side.RIGHT, Side.BOTTOM)) {
            image = -track - 2;
        } else if (from == Side.BOTTOM && to == Side.LEFT) {
            image = track - 1;
        } else {
            image = track + 1;
        }
        return Math.floorMod(image, width);
    }
}
