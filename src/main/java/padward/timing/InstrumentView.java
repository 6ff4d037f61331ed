package padward.timing;

import padward.fabric.delay.Delay;
import padward.fabric.pad.PadDriverOutput;

/**
 * What the instrument sees of a pad's signal.
 *
 * @param rise rise time on the pad, 10 to 90 per cent, at both corners; zero when the fabric does
 *     not state it
 * @param seenRise the same as the instrument shows it
 * @param mostToggleMhz highest frequency that the pad passes at this setting and load, MHz; 0 when
 *     not known
 * @param clockPasses whether the signal can follow its clock; true when either is not known
 * @param levelPs shortest level that the signal can have, ps; 0 when not known
 * @param neededMsPerS sample rate that the signal needs, MS/s; 0 when not known
 * @param instrument what is known of the instrument
 */
public record InstrumentView(
        Delay rise,
        Delay seenRise,
        double mostToggleMhz,
        boolean clockPasses,
        int levelPs,
        double neededMsPerS,
        Instrument instrument) {
    /**
     * Bandwidth times rise time of a system of one pole: ln 9 / 2π, as every textbook of
     * measurement rounds it.
     */
    public static final double BANDWIDTH_TIMES_RISE = 0.35;

    /** The part of an edge between 10 and 90 per cent; a straight edge is taken. */
    private static final double TENTHS = 0.8;

    /** Samples for the shortest level (common practice, no source). */
    private static final int SAMPLES_A_LEVEL = 4;

    private static final double PS_PER_US = 1e6;

    /** Rise time of a system of that bandwidth, ps. */
    public static double risePs(double bandwidthMhz) {
        return BANDWIDTH_TIMES_RISE / bandwidthMhz * PS_PER_US;
    }

    /** Bandwidth of a system of that rise time, MHz: it shows such edges 41 % too long. */
    public static double bandwidthMhz(double risePs) {
        return BANDWIDTH_TIMES_RISE / risePs * PS_PER_US;
    }

    /**
     * Bandwidth that shows edges of that rise time too long by no more than so much, MHz.
     *
     * @param percent the error, per cent
     */
    public static double bandwidthMhz(double risePs, double percent) {
        double factor = 1 + percent / 100;
        return bandwidthMhz(risePs * Math.sqrt(factor * factor - 1));
    }

    /** Rise time behind several systems one after another: root of the sum of squares, ps. */
    public static double behind(double... risesPs) {
        double sum = 0;
        for (double rise : risesPs) {
            sum += rise * rise;
        }
        return Math.sqrt(sum);
    }

    /** What is seen of a pad whose driver's output is not known. */
    public static InstrumentView unknown(Instrument instrument, boolean clock) {
        return of(Delay.ZERO, 0, instrument, clock);
    }

    /**
     * What is seen of a pad.
     *
     * @param loadPf what hangs on it, pF
     * @param clock whether the signal is a clock, which has two levels a period
     */
    public static InstrumentView of(
            PadDriverOutput output, double loadPf, Instrument instrument, boolean clock) {
        return of(output.riseAt(loadPf), mostMhz(output, loadPf), instrument, clock);
    }

    /**
     * The highest frequency that a driver passes, MHz; 0 when not known.
     *
     * @param loadPf what hangs on its pad, pF
     */
    public static double mostMhz(PadDriverOutput output, double loadPf) {
        Delay rise = output.riseAt(loadPf);
        // A level lasts as long as a whole edge takes at the least, and a period has two levels.
        double most = rise.slowPs() == 0 ? 0 : TENTHS / (2.0 * rise.slowPs()) * PS_PER_US;
        boolean stated = output.mostMhz() > 0;
        return stated ? least(most, output.mostMhz()) : most;
    }

    private static double least(double calculated, double stated) {
        return calculated == 0 ? stated : Math.min(calculated, stated);
    }

    private static InstrumentView of(
            Delay rise, double mostMhz, Instrument instrument, boolean clock) {
        // A registered signal has one level in each period of its clock, the clock itself two.
        double ofClock = instrument.clockMhz() * (clock ? 2 : 1);
        double levelsAUs = ofClock > 0 ? ofClock : 2 * mostMhz;
        return new InstrumentView(
                rise,
                seen(rise, instrument),
                mostMhz,
                mostMhz == 0 || ofClock <= 2 * mostMhz,
                levelsAUs == 0 ? 0 : (int) Math.round(PS_PER_US / levelsAUs),
                SAMPLES_A_LEVEL * levelsAUs,
                instrument);
    }

    /** Time between two samples of the instrument, ps; 0 when its rate is not known. */
    public int samplePs() {
        return Instrument.samplePs(instrument.sampleMhz());
    }

    private static Delay seen(Delay rise, Instrument instrument) {
        if (instrument.bandwidthMhz() == 0 || rise.equals(Delay.ZERO)) {
            return rise;
        }
        double own = risePs(instrument.bandwidthMhz());
        return new Delay(
                (int) Math.round(behind(rise.fastPs(), own)),
                (int) Math.round(behind(rise.slowPs(), own)));
    }
}
