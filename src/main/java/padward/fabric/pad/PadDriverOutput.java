package padward.fabric.pad;

import padward.fabric.delay.AtCorners;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;

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
     * Rise time at a load: that of the driver alone and that of the RC by the sum of squares, so
     * that it is the stated one at the rated load. Where the RC alone would take longer than
     * stated, all of it is taken to come from the load.
     */
    public Delay riseAt(double loadPf) {
        int fast = risePs(Corner.FAST, loadPf);
        return new Delay(fast, Math.max(fast, risePs(Corner.SLOW, loadPf)));
    }

    private int risePs(Corner corner, double loadPf) {
        double stated = rise.at(corner);
        double atRated = TENTHS * ohms.at(corner) * ratedPf;
        double atLoad = TENTHS * ohms.at(corner) * loadPf;
        if (atRated > stated) {
            return (int) Math.round(stated * loadPf / ratedPf);
        }
        return (int) Math.round(Math.sqrt(stated * stated - atRated * atRated + atLoad * atLoad));
    }
}
