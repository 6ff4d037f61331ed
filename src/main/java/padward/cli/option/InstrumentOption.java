package padward.cli.option;

import padward.base.BadInput;
import padward.timing.Instrument;
import picocli.CommandLine.Option;

/** The options that describe the instrument and the clock of the signals. */
public final class InstrumentOption {
    private static final double MOST_MHZ = 1_000_000;

    @Option(
            names = "--bandwidth-mhz",
            defaultValue = "0",
            description = "Bandwidth of the instrument with its lead, MHz; 0: unknown.")
    private double bandwidth;

    @Option(
            names = "--sample-mhz",
            defaultValue = "0",
            description = "Sample rate, MS/s; 0: advise.")
    private double sample;

    @Option(
            names = "--clock-mhz",
            defaultValue = "0",
            description = "Frequency of the clock of the signals, MHz; 0: unknown.")
    private double clock;

    public Instrument read() throws BadInput {
        check("--bandwidth-mhz", bandwidth);
        check("--sample-mhz", sample);
        check("--clock-mhz", clock);
        return new Instrument(bandwidth, sample, clock);
    }

    private static void check(String option, double value) throws BadInput {
        if (!(value >= 0 && value <= MOST_MHZ)) {
            throw new BadInput(option, "", "a number from 0 to " + MOST_MHZ, "" + value);
        }
    }
}
