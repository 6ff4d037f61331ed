package padward.capture;

import java.util.Optional;
import padward.fabric.delay.Delay;
import padward.fabric.pad.EdgeDelays;

/**
 * How late the changes of a channel reach the instrument.
 *
 * @param chip the part that shares the die's corner; where its edges differ, the middle between
 *     them at each corner
 * @param outsidePs the rest: package, trace, connector, lead, ps
 * @param tolerancePs how far that can be off, either way, for an edge that is known, ps
 * @param isMeasured whether {@code outsidePs} was measured and is everything; then {@code chip}
 *     only tells how far the die's corners are apart, and {@code edges} how far the edges are
 * @param edges the part that shares the die's corner for each edge on the pad; empty where the two
 *     are not told apart
 */
public record CaptureChannelDelay(
        Delay chip,
        int outsidePs,
        int tolerancePs,
        boolean isMeasured,
        Optional<EdgeDelays> edges) {
    /** A calculated delay of which nothing is known but its range: all of it is the chip's. */
    public static CaptureChannelDelay of(Delay range) {
        return calculated(range, 0, 0);
    }

    /** A calculated delay, the same for both edges. */
    public static CaptureChannelDelay calculated(Delay chip, int outsidePs, int tolerancePs) {
        return new CaptureChannelDelay(chip, outsidePs, tolerancePs, false, Optional.empty());
    }

    /** The same with edges of different delay. */
    public CaptureChannelDelay withEdges(EdgeDelays apart) {
        return new CaptureChannelDelay(
                apart.middle(), outsidePs, tolerancePs, isMeasured, Optional.of(apart));
    }

    /** A measured delay, the mean of both edges. */
    public CaptureChannelDelay measured(int ps, int accuracyPs) {
        return new CaptureChannelDelay(chip, ps, accuracyPs, true, edges);
    }

    /** The same, later by whole cycles of a clock. */
    public CaptureChannelDelay later(int ps) {
        return new CaptureChannelDelay(chip, outsidePs + ps, tolerancePs, isMeasured, edges);
    }

    /** The part of an edge that shares the die's corner. */
    Delay chip(SignalEdge edge) {
        return switch (edge) {
            case TO_HIGH -> edges.map(EdgeDelays::toHigh).orElse(chip);
            case TO_LOW -> edges.map(EdgeDelays::toLow).orElse(chip);
            case EITHER -> chip;
        };
    }

    /** How far the corners of any edge are apart at most, ps. */
    int mostSpreadPs() {
        return edges.map(e -> Math.max(e.toHigh().spreadPs(), e.toLow().spreadPs()))
                .orElse(chip.spreadPs());
    }

    /** Twice the delay half way between the corners, ps: twice, to stay a whole number. */
    long twiceMiddlePs(SignalEdge edge) {
        if (!isMeasured) {
            Delay part = chip(edge);
            return (long) part.fastPs() + part.slowPs() + 2L * outsidePs;
        }
        long quarters = edges.map(e -> (long) apartFast(e) + apartSlow(e)).orElse(0L);
        return 2L * outsidePs
                + switch (edge) {
                    case TO_HIGH -> Math.floorDiv(quarters, 2);
                    case TO_LOW -> -Math.floorDiv(quarters, 2);
                    case EITHER -> 0;
                };
    }

    /**
     * Twice of what is uncertain because it is not known which edge it is, or how far the edges of
     * a measured line are apart, either way, ps.
     */
    long twiceUnknownEdgePs(SignalEdge edge) {
        if (edge == SignalEdge.EITHER) {
            return edges.map(EdgeDelays::apartPs).orElse(0);
        }
        return isMeasured
                ? edges.map(e -> (Math.abs(apartFast(e) - apartSlow(e)) + 1) / 2 + 1).orElse(0)
                : 0;
    }

    private static int apartFast(EdgeDelays edges) {
        return edges.toHigh().fastPs() - edges.toLow().fastPs();
    }

    private static int apartSlow(EdgeDelays edges) {
        return edges.toHigh().slowPs() - edges.toLow().slowPs();
    }
}
