package padward.fabric;

/**
 * What a pad's driver does to the signal, as the fabric's table states it.
 *
 * @param ratedPf load at which the setting's delay and rise time are valid, pF
 * @param rise time from 10 to 90 per cent at that load
 * @param ohms output resistance, ohms: more load slows the signal by it
 * @param mostMhz highest frequency that the maker allows, MHz; 0 when none is stated
 */
public record PadDriverOutput(double ratedPf, Delay rise, AtCorners ohms, int mostMhz) {
    /** A lumped RC passes half of a step after ln 2 times RC. */
    private static final double HALF = Math.log(2);

    /** And goes from a tenth to nine tenths in ln 9 times RC. */
    private static final double TENTHS = Math.log(9);

    /** What a load other than the rated one adds to the driver's delay or, if less, takes away. */
    double addedPs(double loadPf, Corner corner) {
        return HALF * ohms.at(corner) * (loadPf - ratedPf);
    }

    /**
     * Rise time at a load: the rated one and that of the added RC by the sum of squares; at the
     * rated load or less, the rated one.
     */
    public Delay riseAt(double loadPf) {
        double more = Math.max(0, loadPf - ratedPf);
        return new Delay(risePs(Corner.FAST, more), risePs(Corner.SLOW, more));
    }

    private int risePs(Corner corner, double morePf) {
        return (int) Math.round(Math.hypot(rise.at(corner), TENTHS * ohms.at(corner) * morePf));
    }
}
