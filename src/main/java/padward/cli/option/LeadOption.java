package padward.cli.option;

import java.util.Optional;
import padward.base.BadInput;
import padward.format.ledger.LeadField;
import padward.timing.ExternalLineDelay;
import picocli.CommandLine.Option;

/** The options that describe what is between the pad and the instrument. */
public final class LeadOption {
    @Option(
            names = "--dielectric",
            defaultValue = "4.3",
            description =
                    "Dielectric constant of the board, for the delay of traces (${DEFAULT-VALUE}).")
    private double dielectric;

    @Option(
            names = "--lead-m",
            paramLabel = "METRES",
            description =
                    "Length of the leads to the instrument, metres (0). Lengths that the ledger"
                            + " states for single leads count before it.")
    private String lead;

    @Option(
            names = "--velocity",
            defaultValue = "0.66",
            description = "Velocity factor of the leads (${DEFAULT-VALUE}).")
    private double velocity;

    @Option(
            names = "--connector-ps",
            defaultValue = "0",
            description = "Delay of the connector between board and lead, ps (${DEFAULT-VALUE}).")
    private int connector;

    @Option(
            names = "--probe-pf",
            defaultValue = "10",
            description =
                    "Capacitance of the lead's tip and the instrument, pF (${DEFAULT-VALUE}).")
    private double load;

    @Option(
            names = "--local-percent",
            defaultValue = "5",
            description =
                    "By how much two routes of the same delay can differ on one die, per cent "
                            + "(${DEFAULT-VALUE}).")
    private double local;

    /** By how much two routes of the same delay can differ on one die, per cent. */
    public double localPercent() throws BadInput {
        check("--local-percent", local, 0, 100);
        return local;
    }

    /** The length of the leads, where it is stated. */
    public Optional<Double> statedMetres() throws BadInput {
        return lead == null ? Optional.empty() : Optional.of(LeadField.metres(lead, "--lead-m"));
    }

    public ExternalLineDelay read() throws BadInput {
        check("--dielectric", dielectric, 1, 20);
        check("--connector-ps", connector, 0, 10_000);
        check("--probe-pf", load, 0, 1000);
        check("--velocity", velocity, 0.1, 1);
        double metres = statedMetres().orElse(0.0);
        return new ExternalLineDelay(dielectric, connector, metres, velocity, load);
    }

    private static void check(String option, double value, double least, double most)
            throws BadInput {
        if (!(value >= least && value <= most)) {
            throw new BadInput(option, "", "a number from " + least + " to " + most, "" + value);
        }
    }
}
