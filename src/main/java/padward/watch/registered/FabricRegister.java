package padward.watch.registered;

import java.util.List;
import java.util.Optional;
import padward.design.Net;
import padward.fabric.delay.Delay;
import padward.timing.Arrival;
import padward.watch.answer.CircuitSetupHold;
import padward.watch.place.WatchResult;

/**
 * A line of a registered group for which the register of its pad alone does not do: it is
 * registered in the fabric, or passes two registers because its source has another clock.
 *
 * @param net the net
 * @param pad index of its pad
 * @param twoStages whether it passes two registers
 * @param cells the registers in the order in which the signal passes them; none when it is refused
 * @param lastAtPad whether the last one is in the pad's IO register site
 * @param reason why it is refused, as a clause; empty when it is not
 * @param atInstrument from the clock's driver through the last register to the instrument
 * @param arrival the same with what shares the die's corner apart
 * @param check setup and hold
 * @param missing what no file states, so that the delay at the instrument lacks it, as clauses
 */
public record FabricRegister(
        Net net,
        int pad,
        boolean twoStages,
        List<WatchResult.PlacedCell> cells,
        boolean lastAtPad,
        Optional<String> reason,
        Optional<Delay> atInstrument,
        Optional<Arrival> arrival,
        Optional<CircuitSetupHold> check,
        List<String> missing) {
    /** Copies the lists. */
    public FabricRegister {
        cells = List.copyOf(cells);
        missing = List.copyOf(missing);
    }

    static FabricRegister refused(Net net, int pad, boolean twoStages, String why) {
        return new FabricRegister(
                net,
                pad,
                twoStages,
                List.of(),
                false,
                Optional.of(why),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                List.of());
    }

    /** By how many cycles of the clock the line is late. */
    public int cycles() {
        return twoStages ? 2 : 1;
    }

    /**
     * What it does and what that means, as sentences.
     *
     * @param clock name of the clock's net
     * @param periodPs period of the clock, ps; 0 when not known
     */
    public List<String> sentences(String clock, double periodPs) {
        return FabricRegisterText.sentences(this, clock, periodPs);
    }
}
