package padward.cli.option;

import padward.base.BadInput;
import padward.breakout.ask.WantedDriver;
import padward.design.Design;
import padward.fabric.pad.DriverSetting;
import padward.format.source.Nearest;
import picocli.CommandLine.Option;

/** The options that say how a pad's driver is set. */
public final class DriverOption {
    @Option(
            names = "--setting",
            paramLabel = "SETTING",
            description =
                    "The setting of the pad's driver. Otherwise the weakest drive with the slowest "
                            + "slew that fits the voltage of the pad's bank and passes --signal-mhz; "
                            + "never one for a differential pair.")
    private String setting;

    @Option(
            names = "--signal-mhz",
            paramLabel = "MHZ",
            description = "The highest frequency of the signal, MHz; 0: not known.")
    private double signalMhz;

    /** What is wanted of the drivers of a design's pads. */
    public WantedDriver of(Design design) throws BadInput {
        if (!(signalMhz >= 0) || signalMhz > 1e6) {
            throw new BadInput("--signal-mhz", "", "a number from 0 to 1000000", "" + signalMhz);
        }
        if (setting == null) {
            return new WantedDriver("", signalMhz);
        }
        if (design.fabric().info().findSetting(setting).isEmpty()) {
            throw new BadInput(
                    "--setting",
                    "",
                    "a driver setting of the fabric",
                    Nearest.describe(
                            setting,
                            design.fabric().info().settings().stream().map(DriverSetting::name)));
        }
        return new WantedDriver(setting, signalMhz);
    }
}
