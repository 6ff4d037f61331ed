package padward.watch.place;

import java.util.List;
import padward.fabric.delay.Delay;

/**
 * Delays of a placed circuit.
 *
 * @param arrivals for each net that it observes, clocks apart, where its signal goes
 * @param clocks for each clock of its registers
 * @param unknownTables whether the fabric states no delay through some of its lookup tables, so
 *     that the sums lack it
 * @param unknownRegisters whether it states no delay from clock to output of some of its registers
 */
public record WatchTiming(
        List<Arrival> arrivals,
        List<ClockUse> clocks,
        boolean unknownTables,
        boolean unknownRegisters) {
    /** Copies the lists. */
    public WatchTiming {
        arrivals = List.copyOf(arrivals);
        clocks = List.copyOf(clocks);
    }

    /**
     * From a net's driver through lookup tables to an end.
     *
     * @param net name of the net
     * @param end {@code pad NAME} or, at a register, {@code cell.pin}
     * @param atPad whether the end is a pad, and the delay that to the pin
     * @param delay the smallest and the largest of all paths
     */
    public record Arrival(String net, String end, boolean atPad, Delay delay) {}

    /**
     * A clock of the circuit's registers.
     *
     * @param net name of the clock's net
     * @param arrival when its edge comes to the circuit's registers, from its driver
     * @param elsewhere when it comes to the registers that it had before
     * @param toPads from the clock's driver through registers to each pad that shows one
     */
    public record ClockUse(String net, Delay arrival, Delay elsewhere, List<ToPad> toPads) {
        /** Copies the list. */
        public ClockUse {
            toPads = List.copyOf(toPads);
        }
    }

    /**
     * From a clock's driver to a pad.
     *
     * @param pad the pad's name
     * @param delay the smallest and the largest of all paths
     */
    public record ToPad(String pad, Delay delay) {}
}
