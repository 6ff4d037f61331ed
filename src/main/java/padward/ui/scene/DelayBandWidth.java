package padward.ui.scene;

/** Delay that one band on the map covers. */
public enum DelayBandWidth {
    AUTOMATIC(0, "automatic"),
    HALF(500, "0.5 ns"),
    ONE(1000, "1 ns"),
    TWO(2000, "2 ns"),
    FIVE(5000, "5 ns");

    private static final int MAX_BANDS = 8;

    private final int ps;
    private final String label;

    DelayBandWidth(int ps, String label) {
        this.ps = ps;
        this.label = label;
    }

    /** The text in the menu. */
    public String label() {
        return label;
    }

    /**
     * Width of a band in picoseconds, given the greatest delay. {@link #AUTOMATIC} is the least of
     * 1, 2, 5 times a power of ten that gives at most eight bands.
     */
    int ps(int latestPs) {
        if (ps > 0) {
            return ps;
        }
        for (int power = 10; ; power *= 10) {
            for (int digit : new int[] {1, 2, 5}) {
                int width = digit * power;
                if (latestPs <= (long) MAX_BANDS * width || width >= 1_000_000) {
                    return width;
                }
            }
        }
    }
}
