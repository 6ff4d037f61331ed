package padward.timing;

import padward.fabric.delay.Delay;

/**
 * When a line's signal arrives at the instrument, with what does and what does not share the die's
 * corner kept apart.
 *
 * @param chip from the net's driver through the pad's driver, at the stated load; where the driver
 *     states its two edges, the middle between them at each corner
 * @param outsidePs package, trace, connector and lead, ps
 * @param outsideTolerancePs how far these can be off together, either way: the root of the sum of
 *     squares, and half of what the driver's two edges are apart, ps
 */
public record Arrival(Delay chip, int outsidePs, int outsideTolerancePs) {
    /** The arrival at each corner of the die, with all outside parts as stated. */
    public Delay nominal() {
        return chip.plus(new Delay(outsidePs, outsidePs));
    }
}
