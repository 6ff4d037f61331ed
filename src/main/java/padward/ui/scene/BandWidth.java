package padward.ui.scene;

/** How much delay one band on the map stands for. */
public enum BandWidth {
    FITTING(0, "as fits"),
    HALF(500, "0.5 ns"),
    ONE(1000, "1 ns"),
    TWO(2000, "2 ns"),
    FIVE(5000, "5 ns");

    private static final int MOST_BANDS = 8;

    private final int ps;
    private final String label;

    BandWidth(int ps, String label) {
        this.ps = ps;
        this.label = label;
    }

    /** What stands in the menu. */
    public String label() {
        return label;
    }

    /**
     * Picoseconds of a band, when the latest place is reached so late. {@link #FITTING} takes the
     * least of 1, 2, 5 times a power of ten that leads to at most eight bands.
     */
    int ps(int latestPs) {
        if (ps > 0) {
            return ps;
        }
        for (int power = 10; ; power *= 10) {
            for (int digit : new int[] {1, 2, 5}) {
                int width = digit * power;
                if (latestPs <= (long) MOST_BANDS * width || width >= 1_000_000) {
                    return width;
                }
            }
        }
    }
}
