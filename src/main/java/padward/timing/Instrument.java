package padward.timing;

/**
 * What is known of the instrument and the signal's clock; 0 for what is not.
 *
 * @param bandwidthMhz bandwidth of the instrument with its lead, MHz
 * @param sampleMhz sample rate on a clock of its own, MS/s
 * @param clockMhz frequency of the clock that the signal changes with, MHz
 */
public record Instrument(double bandwidthMhz, double sampleMhz, double clockMhz) {
    /** Nothing is known. */
    public static final Instrument UNKNOWN = new Instrument(0, 0, 0);

    /** Time between two samples, rounded up, ps; 0 for a sample rate that is not known. */
    public static int samplePs(double sampleMhz) {
        return sampleMhz == 0 ? 0 : (int) Math.ceil(1e6 / sampleMhz);
    }
}
