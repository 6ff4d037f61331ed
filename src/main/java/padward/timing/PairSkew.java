package padward.timing;

import padward.fabric.delay.Delay;

/**
 * How far two lines of one die can be apart at the instrument. At each corner their routes differ
 * by so much; local variation of the parts that they do not share, and the tolerances of package,
 * board and leads, add to that.
 *
 * @param fastPs difference at the fast corner, ps, not negative
 * @param slowPs difference at the slow corner, ps, not negative
 * @param localPs local variation, either way, ps
 * @param outsidePs package, traces, connectors and leads, either way, ps
 */
public record PairSkew(int fastPs, int slowPs, int localPs, int outsidePs) {
    /**
     * By how much two routes of the same delay can differ on one die, per cent, unless stated:
     * timing sign-off takes 3 to 10 (common practice, no source).
     */
    public static final double USUAL_LOCAL_PERCENT = 5;

    /**
     * The skew of two lines.
     *
     * @param shared the part of both that is the same wires, from the same driver on
     * @param localPercent by how much two routes of the same delay can differ on one die
     */
    public static PairSkew of(Arrival one, Arrival other, Delay shared, double localPercent) {
        Delay a = one.nominal();
        Delay b = other.nominal();
        int apart = one.chip().slowPs() + other.chip().slowPs() - 2 * shared.slowPs();
        double outside = Math.hypot(one.outsideTolerancePs(), other.outsideTolerancePs());
        return new PairSkew(
                Math.abs(a.fastPs() - b.fastPs()),
                Math.abs(a.slowPs() - b.slowPs()),
                (int) Math.ceil(localPs(Math.max(0, apart), localPercent)),
                (int) Math.ceil(outside));
    }

    /** Local variation of parts that take so long together; half of it for each of two. */
    public static double localPs(double togetherPs, double localPercent) {
        return togetherPs / 2 * localPercent / 100;
    }

    /** How uncertain the difference is, either way, ps. */
    public int uncertainPs() {
        return localPs + outsidePs;
    }

    /** The greatest skew to expect, ps. */
    public int mostPs() {
        return Math.max(fastPs, slowPs) + uncertainPs();
    }
}
