package padward.breakout.ask;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import padward.design.Design;
import padward.design.Port;
import padward.fabric.Bank;
import padward.fabric.DriverSetting;
import padward.fabric.Pad;

/**
 * How a pad's driver can be set so that it fits the pad's bank: all drivers of a bank share one
 * supply (common practice, no source), so a setting for another voltage cannot be used there.
 *
 * @param setting the setting to be used; empty when neither port nor pad states one, or none fits
 * @param conflict what does not fit, as a sentence; empty when all is well
 * @param hopeless whether the pad cannot be driven at its bank's voltage at all
 */
public record DriverFit(
        Optional<DriverSetting> setting, Optional<String> conflict, boolean hopeless) {
    /**
     * Chooses a setting.
     *
     * @param wanted name of the setting that the port states, {@code ""} for the pad's default
     */
    public static DriverFit of(Design design, Pad pad, String wanted) {
        String name = wanted.isEmpty() ? pad.defaultSetting() : wanted;
        Optional<DriverSetting> own = design.fabric().info().findSetting(name);
        Optional<Bank> bank = design.fabric().info().findBank(pad.bank());
        if (bank.isEmpty()) {
            return new DriverFit(own, Optional.empty(), false);
        }
        int supply = bank.get().millivolts();
        Optional<String> others = otherVoltages(design, bank.get());
        if (own.isEmpty() || own.get().millivolts() == supply) {
            return new DriverFit(own, others, false);
        }
        Optional<DriverSetting> fitting =
                design.fabric().info().settings().stream()
                        .filter(s -> s.millivolts() == supply)
                        .findFirst();
        String text =
                "Driver setting "
                        + name
                        + " is for "
                        + own.get().millivolts()
                        + " mV, but bank "
                        + bank.get().name()
                        + " is supplied with "
                        + supply
                        + " mV"
                        + fitting.map(s -> ": set the driver to " + s.name() + " instead.")
                                .orElse(", and no setting has that voltage: do not use this pad.");
        return new DriverFit(fitting, Optional.of(text), fitting.isEmpty());
    }

    /** The fit of the setting that the port on a pad states, or of the pad's default. */
    public static DriverFit of(Question question) {
        String wanted = question.design().findPortOn(question.pad()).map(Port::setting).orElse("");
        return of(question.design(), question.padValue(), wanted);
    }

    /** The ports of a bank that are set for a voltage other than the bank's. */
    private static Optional<String> otherVoltages(Design design, Bank bank) {
        List<String> odd = design.portsAtOddVoltage(bank.name()).stream().map(Port::name).toList();
        if (odd.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(
                odd.stream()
                        .collect(
                                Collectors.joining(
                                        ", ",
                                        "In bank "
                                                + bank.name()
                                                + ", supplied with "
                                                + bank.millivolts()
                                                + " mV, these ports are set"
                                                + " for another voltage: ",
                                        ". Find out which is right before driving the pad.")));
    }
}
