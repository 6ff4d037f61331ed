package padward.capture;

import padward.fabric.delay.Delay;

/**
 * How late the changes of a channel reach the instrument.
 *
 * @param chip the part that shares the die's corner
 * @param outsidePs the rest: package, trace, connector, lead, ps
 * @param tolerancePs how far that can be off, either way, ps
 * @param isMeasured whether {@code outsidePs} was measured and is everything; then {@code chip}
 *     only tells how far the die's corners are apart
 */
public record ChannelDelay(Delay chip, int outsidePs, int tolerancePs, boolean isMeasured) {
    /** A calculated delay of which nothing is known but its range: all of it is the chip's. */
    public static ChannelDelay of(Delay range) {
        return new ChannelDelay(range, 0, 0, false);
    }

    /** A measured delay. */
    public ChannelDelay measured(int ps, int accuracyPs) {
        return new ChannelDelay(chip, ps, accuracyPs, true);
    }

    /** Twice the delay half way between the corners, ps: twice, to stay a whole number. */
    long twiceMiddlePs() {
        return isMeasured ? 2L * outsidePs : (long) chip.fastPs() + chip.slowPs() + 2L * outsidePs;
    }
}
