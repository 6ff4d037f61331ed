package padward.fabric.delay;

import java.util.Locale;

/**
 * A delay at both corners, in integer picoseconds. An {@code int} reaches 2.1 ms, a thousand times
 * the longest route on any fabric within the stated limits (10^8 vertices of at most 10^4 ps in a
 * row would not fit, but routes have hundreds of hops, not millions).
 *
 * @param fastPs delay at the fast corner, picoseconds, not negative
 * @param slowPs delay at the slow corner, picoseconds, not less than {@code fastPs}
 */
public record Delay(int fastPs, int slowPs) {
    /** No delay at either corner. */
    public static final Delay ZERO = new Delay(0, 0);

    /**
     * @throws IllegalArgumentException when a value is negative or the fast one is the greater
     */
    public Delay {
        if (fastPs < 0 || slowPs < fastPs) {
            throw new IllegalArgumentException(
                    "0 <= fast <= slow expected, got " + fastPs + ", " + slowPs);
        }
    }

    /** The delay at one corner, picoseconds. */
    public int at(Corner corner) {
        return corner == Corner.FAST ? fastPs : slowPs;
    }

    /**
     * The sum at each corner.
     *
     * @throws DelayTooLong when it is beyond whole numbers of 31 bits
     */
    public Delay plus(Delay other) {
        return new Delay(ps((long) fastPs + other.fastPs), ps((long) slowPs + other.slowPs));
    }

    /**
     * A number of picoseconds as delays state it.
     *
     * @throws DelayTooLong when it is beyond whole numbers of 31 bits
     */
    public static int ps(long picoseconds) {
        if (picoseconds > Integer.MAX_VALUE) {
            throw new DelayTooLong();
        }
        return (int) picoseconds;
    }

    /**
     * What is left of this after a part of it; where the part spreads wider than the whole, the
     * slow value is the fast one.
     */
    public Delay less(Delay part) {
        int fast = fastPs - part.fastPs;
        return new Delay(fast, Math.max(fast, slowPs - part.slowPs));
    }

    /** The middle between the corners, rounded down, picoseconds. */
    public int middlePs() {
        return fastPs + (slowPs - fastPs) / 2;
    }

    /** How far apart the corners are, picoseconds. */
    public int spreadPs() {
        return slowPs - fastPs;
    }

    /** As a person reads it: {@code 1.234–2.345 ns}. */
    public String toText() {
        return fastPs == slowPs
                ? String.format(Locale.ROOT, "%.3f ns", fastPs / 1000.0)
                : String.format(Locale.ROOT, "%.3f–%.3f ns", fastPs / 1000.0, slowPs / 1000.0);
    }
}
