package padward.fabric.pad;

import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;

/**
 * A driver's delay for each of the two edges, where they differ. A level at the pad is as much
 * shorter or longer than inside as its two edges are apart.
 *
 * @param toHigh delay of an edge to high
 * @param toLow delay of an edge to low
 */
public record EdgeDelays(Delay toHigh, Delay toLow) {
    /** The part of an edge between 10 and 90 per cent; a straight edge is taken. */
    private static final double TENTHS = 0.8;

    /** The delay of an edge of which it is not known which it is. */
    public Delay either() {
        return new Delay(
                Math.min(toHigh.fastPs(), toLow.fastPs()),
                Math.max(toHigh.slowPs(), toLow.slowPs()));
    }

    /**
     * The middle between the two edges at each corner, rounded down: neither is further from it
     * there than half of {@link #apartPs()}, rounded up.
     */
    public Delay middle() {
        return new Delay(middlePs(Corner.FAST), middlePs(Corner.SLOW));
    }

    /** How far no edge is from the middle between both, at any corner, ps. */
    public int halfApartPs() {
        return (apartPs() + 1) / 2;
    }

    /** The same with what comes before the driver. */
    public EdgeDelays after(Delay before) {
        return new EdgeDelays(before.plus(toHigh), before.plus(toLow));
    }

    private int middlePs(Corner corner) {
        return (int) (((long) toHigh.at(corner) + toLow.at(corner)) / 2);
    }

    /** By how much the two edges are apart at most, at one corner, ps. */
    public int apartPs() {
        return Math.max(Math.abs(highLaterPs(Corner.FAST)), Math.abs(highLaterPs(Corner.SLOW)));
    }

    private int highLaterPs(Corner corner) {
        return toHigh.at(corner) - toLow.at(corner);
    }

    /**
     * The shortest high level inside that still reaches its full height at the pad: a whole edge,
     * and what the later first edge takes away.
     *
     * @param rise rise time from 10 to 90 per cent; zero when not known
     */
    public int shortestHighPs(Delay rise) {
        return Math.max(
                shortest(highLaterPs(Corner.FAST), rise.fastPs()),
                shortest(highLaterPs(Corner.SLOW), rise.slowPs()));
    }

    /** The same for a low level. */
    public int shortestLowPs(Delay rise) {
        return Math.max(
                shortest(-highLaterPs(Corner.FAST), rise.fastPs()),
                shortest(-highLaterPs(Corner.SLOW), rise.slowPs()));
    }

    private static int shortest(int laterPs, int risePs) {
        return Math.max(0, laterPs) + (int) Math.ceil(risePs / TENTHS);
    }
}
