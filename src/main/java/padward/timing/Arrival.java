package padward.timing;

import java.util.Optional;
import padward.fabric.delay.Delay;
import padward.fabric.pad.EdgeDelays;

/**
 * When a line's signal arrives at the instrument, with what does and what does not share the die's
 * corner kept apart.
 *
 * @param chip from the net's driver through the pad's driver, at the stated load; where the driver
 *     states its two edges, the middle between them at each corner
 * @param outsidePs package, trace, connector and lead, ps
 * @param outsideTolerancePs how far these can be off together, either way: the root of the sum of
 *     squares, and half of what the driver's two edges are apart, ps
 * @param edges the chip's part for each edge on the pad; empty where the driver does not state them
 */
public record Arrival(
        Delay chip, int outsidePs, int outsideTolerancePs, Optional<EdgeDelays> edges) {
    /** The arrival of a line whose two edges are not told apart. */
    public Arrival(Delay chip, int outsidePs, int outsideTolerancePs) {
        this(chip, outsidePs, outsideTolerancePs, Optional.empty());
    }

    /** The same, later by what comes before. */
    public Arrival after(Delay before) {
        return new Arrival(
                before.plus(chip), outsidePs, outsideTolerancePs, edges.map(e -> e.after(before)));
    }

    /** The arrival at each corner of the die, with all outside parts as stated. */
    public Delay nominal() {
        return chip.plus(new Delay(outsidePs, outsidePs));
    }
}
