package padward.breakout.ask;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import padward.base.Volts;
import padward.design.Design;
import padward.design.Port;
import padward.fabric.Pad;
import padward.fabric.pad.Bank;
import padward.fabric.pad.DriverSetting;
import padward.fabric.pad.PadDriving;
import padward.timing.InstrumentView;

/**
 * How a pad's driver is set for a net that is brought out. All drivers of a bank share one supply,
 * so a setting for another voltage cannot be used there. Of those that fit, the weakest drive and
 * the slowest edge that still pass the signal disturb the neighbours and ring least, and do least
 * harm against another driver; a pair of pads shows one net only by half (all common practice, no
 * source).
 *
 * @param setting the setting to be used; empty when none is known, or none fits
 * @param conflict what does not fit, as a sentence; empty when all is well
 * @param hopeless whether the pad cannot be driven at its bank's voltage at all
 */
public record DriverFit(
        Optional<DriverSetting> setting, Optional<String> conflict, boolean hopeless) {

    /** The setting for a question's net. */
    public static DriverFit of(Question question) {
        Design design = question.design();
        WantedDriver wish = question.driver();
        if (question.isThere() && !wish.isNamed()) {
            wish = WantedDriver.of(standing(design, question.pad()));
        }
        return of(design, question.pad(), wish);
    }

    /** The setting that a pad's driver has now: its port's, else the pad's default. */
    public static String standing(Design design, int pad) {
        return design.findPortOn(pad)
                .map(Port::setting)
                .filter(s -> !s.isEmpty())
                .orElseGet(() -> design.fabric().pads().get(pad).defaultSetting());
    }

    /**
     * The setting for a net that is brought out on a pad.
     *
     * @param index the pad's index
     */
    public static DriverFit of(Design design, int index, WantedDriver wish) {
        Pad pad = design.fabric().pads().get(index);
        Optional<DriverSetting> usual = find(design, pad.defaultSetting());
        Optional<Bank> bank = design.fabric().info().findBank(pad.bank());
        PadDriving driving = pad.use().driving();
        if (find(design, wish.setting()).isPresent()) {
            return driving.allows(wish.setting())
                    ? named(find(design, wish.setting()), bank)
                    : new DriverFit(
                            Optional.empty(), Optional.of(illegal(pad, wish.setting())), true);
        }
        Optional<DriverSetting> standing =
                find(design, standing(design, index)).filter(s -> driving.allows(s.name()));
        Optional<Integer> supply =
                bank.map(Bank::millivolts)
                        .or(() -> standing.map(DriverSetting::millivolts))
                        .or(
                                () ->
                                        driving.settings().stream()
                                                .findFirst()
                                                .flatMap(s -> find(design, s))
                                                .map(DriverSetting::millivolts));
        if (supply.isEmpty()) {
            return new DriverFit(standing, Optional.empty(), false);
        }
        Optional<DriverSetting> fitting =
                gentlest(design, driving, supply.get(), usual.or(() -> standing), wish.signalMhz());
        if (fitting.isEmpty() && standing.isEmpty() && !driving.settings().isEmpty()) {
            String none =
                    "Pad "
                            + pad.name()
                            + " has no driver setting for the "
                            + Volts.text(supply.get())
                            + " of its bank: do not use this pad.";
            return new DriverFit(Optional.empty(), Optional.of(none), true);
        }
        boolean odd =
                bank.isPresent()
                        && standing.isPresent()
                        && standing.get().millivolts() != supply.get();
        Optional<String> conflict =
                odd
                        ? Optional.of(mismatch(standing.get(), bank.get(), fitting))
                        : bank.flatMap(b -> otherVoltages(design, b));
        boolean hopeless = odd && fitting.isEmpty();
        return new DriverFit(hopeless ? fitting : fitting.or(() -> standing), conflict, hopeless);
    }

    private static String illegal(Pad pad, String setting) {
        return "Pad "
                + pad.name()
                + " does not have driver setting "
                + setting
                + ", only "
                + String.join(", ", pad.use().driving().settings())
                + ".";
    }

    private static Optional<DriverSetting> find(Design design, String name) {
        return design.fabric().info().findSetting(name);
    }

    /** A setting that somebody wants is used as it is, or not at all. */
    private static DriverFit named(Optional<DriverSetting> wanted, Optional<Bank> bank) {
        boolean odd =
                wanted.isPresent()
                        && bank.isPresent()
                        && wanted.get().millivolts() != bank.get().millivolts();
        if (!odd) {
            return new DriverFit(wanted, Optional.empty(), false);
        }
        String text = mismatch(wanted.get(), bank.get(), Optional.empty());
        return new DriverFit(Optional.empty(), Optional.of(text), true);
    }

    private static String mismatch(
            DriverSetting standing, Bank bank, Optional<DriverSetting> instead) {
        return "Driver setting "
                + standing.name()
                + " is for "
                + Volts.text(standing.millivolts())
                + ", but bank "
                + bank.name()
                + " is supplied with "
                + Volts.text(bank.millivolts())
                + instead.map(s -> ": set the driver to " + s.name() + " instead.")
                        .orElse(", and no other setting is left: do not use this pad.");
    }

    /** The weakest and slowest setting for one pad alone that passes a frequency. */
    private static Optional<DriverSetting> gentlest(
            Design design,
            PadDriving driving,
            int millivolts,
            Optional<DriverSetting> usual,
            double signalMhz) {
        String standard = usual.map(DriverSetting::standard).orElse("");
        List<DriverSetting> fitting =
                design.fabric().info().settings().stream()
                        .filter(s -> s.millivolts() == millivolts && !s.drivesPair())
                        .filter(s -> driving.allows(s.name()))
                        .sorted(
                                Comparator.comparing(
                                                (DriverSetting s) -> !s.standard().equals(standard))
                                        .thenComparing(DriverSetting::milliamps)
                                        .thenComparing(s -> !s.slew().equals("slow")))
                        .toList();
        // One whose limit is not known comes after those that are known to pass.
        return fitting.stream()
                .filter(s -> signalMhz == 0 || mostMhz(s) >= signalMhz)
                .findFirst()
                .or(() -> fitting.stream().filter(s -> mostMhz(s) == 0).findFirst())
                .or(() -> fitting.stream().max(Comparator.comparing(DriverFit::mostMhz)));
    }

    /** The highest frequency that a setting passes at its rated load, MHz; 0 when not known. */
    private static double mostMhz(DriverSetting setting) {
        return setting.output().map(o -> InstrumentView.mostMhz(o, o.ratedPf())).orElse(0.0);
    }

    /** The outputs of a bank that are set for a voltage other than the bank's. */
    private static Optional<String> otherVoltages(Design design, Bank bank) {
        List<String> odd =
                design.outputsAtOddVoltage(bank.name()).stream().map(Port::name).toList();
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
                                                + Volts.text(bank.millivolts())
                                                + ", these outputs are set"
                                                + " for another voltage: ",
                                        ". Find out which is right before driving the pad.")));
    }
}
