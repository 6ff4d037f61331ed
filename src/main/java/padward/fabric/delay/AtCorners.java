package padward.fabric.delay;

/**
 * A resistance or capacitance at both corners, in the unit that its user states.
 *
 * @param fast value at the fast corner, not negative
 * @param slow value at the slow corner, not less than {@code fast}
 */
public record AtCorners(int fast, int slow) {
    /** Nothing at either corner. */
    public static final AtCorners ZERO = new AtCorners(0, 0);

    /**
     * @throws IllegalArgumentException when a value is negative or the fast one is the greater
     */
    public AtCorners {
        if (fast < 0 || slow < fast) {
            throw new IllegalArgumentException(
                    "0 <= fast <= slow expected, got " + fast + ", " + slow);
        }
    }

    /** The value at one corner. */
    public int at(Corner corner) {
        return corner == Corner.FAST ? fast : slow;
    }
}
