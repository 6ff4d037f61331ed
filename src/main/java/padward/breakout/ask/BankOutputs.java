package padward.breakout.ask;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Port;
import padward.design.PortDirection;
import padward.fabric.pad.DriverSetting;

/**
 * The outputs of a bank, before and after a change. Outputs that switch together draw their
 * currents through the same supply and ground pins, whose inductance moves the levels of the whole
 * bank (M. Johnson and H. Graham, "High-Speed Digital Design", 1993, chapter 2: ground bounce, from
 * memory). How many a bank bears is in the device's data sheet; from how many on that is asked is
 * common practice, no source.
 *
 * @param bank name of the bank
 * @param before outputs before
 * @param after outputs after
 * @param milliampsBefore their drive strengths in all, mA
 * @param milliampsAfter the same after, mA
 * @param unknown outputs after whose strength is not known, and not in the sum
 */
public record BankOutputs(
        String bank, int before, int after, int milliampsBefore, int milliampsAfter, int unknown) {
    /** New outputs in a bank from which on the data sheet's limit is pointed out. */
    private static final int MANY = 4;

    /** The banks in which edits bring nets out, in the order of their first pads. */
    public static List<BankOutputs> of(Design before, List<Edit> edits) {
        if (!(Outcome.of(before, edits) instanceof Outcome.Applied applied)) {
            return List.of();
        }
        Map<String, Boolean> banks = new LinkedHashMap<>();
        for (Question question : Question.ofBreakOuts(before, edits)) {
            banks.put(question.padValue().bank(), true);
        }
        List<BankOutputs> result = new ArrayList<>();
        for (String bank : banks.keySet()) {
            Sum was = Sum.of(before, bank);
            Sum is = Sum.of(applied.design(), bank);
            result.add(
                    new BankOutputs(
                            bank,
                            was.outputs,
                            is.outputs,
                            was.milliamps,
                            is.milliamps,
                            is.unknown));
        }
        return result;
    }

    private record Sum(int outputs, int milliamps, int unknown) {
        static Sum of(Design design, String bank) {
            int outputs = 0;
            int milliamps = 0;
            int unknown = 0;
            for (Port port : design.ports()) {
                boolean here = design.fabric().pads().get(port.pad()).bank().equals(bank);
                if (here && port.direction() != PortDirection.IN) {
                    Optional<DriverSetting> setting =
                            design.fabric()
                                    .info()
                                    .findSetting(DriverFit.standing(design, port.pad()));
                    outputs++;
                    milliamps += setting.map(DriverSetting::milliamps).orElse(0);
                    unknown += setting.isPresent() ? 0 : 1;
                }
            }
            return new Sum(outputs, milliamps, unknown);
        }
    }

    /** Whether a change puts many outputs into the bank. */
    public boolean addsMany() {
        return after - before >= MANY;
    }

    private static String outputs(int count) {
        return count + (count == 1 ? " output" : " outputs");
    }

    /** The numbers as a sentence. */
    public String toText() {
        String name = bank.isEmpty() ? "Pads without a bank" : "Bank " + bank;
        return String.format(
                Locale.ROOT,
                "%s: %s with %d mA before, %s with %d mA after%s.",
                name,
                outputs(before),
                milliampsBefore,
                outputs(after),
                milliampsAfter,
                unknown == 0 ? "" : " and " + unknown + " of unknown strength");
    }
}
