package padward.breakout.group;

import java.util.List;
import padward.base.Progress;
import padward.design.Design;
import padward.route.search.DelayWindowSearch;
import padward.timing.ExternalLine;

/**
 * A group whose ways were made to agree: the quick ones go by detours until all arrive, at each
 * corner, within a tolerance of the latest. Lines are laid anew one by one, the quickest first,
 * beside all others as they lie ({@link DelayWindowSearch}); where that fails, all are tried at a
 * later time. Pads stay as they are, and so does every line that is within the tolerance.
 *
 * <p>The skew that this brings down is that between lines at one corner: lines on one chip are fast
 * together and slow together. The spread of a single line between the corners no way can take away.
 *
 * @param before the group as it was
 * @param after the group with ways that agree, as far as it went
 * @param beforePs greatest skew at either corner before, at the instrument, ps
 * @param afterPs the same after
 * @param tolerancePs what was asked for, ps
 * @param misses the lines that are not within the tolerance of the latest, with the reason
 */
public record MatchedGroup(
        Bus before, Bus after, int beforePs, int afterPs, int tolerancePs, List<Miss> misses) {
    /** Copies the list. */
    public MatchedGroup {
        misses = List.copyOf(misses);
    }

    /**
     * A line that could not be matched.
     *
     * @param line the line, as it stays
     * @param proven whether it is proven that no way beside the others takes as long; else none was
     *     found in the stated effort
     */
    public record Miss(Bus.Line line, boolean proven) {}

    /** Whether all lines arrive within the tolerance, at both corners. */
    public boolean reached() {
        return afterPs <= tolerancePs;
    }

    /**
     * Matches a group's ways.
     *
     * @param design the design that the group was laid on
     * @param outside what lies between the pads and the instrument: lines agree there
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    public static MatchedGroup of(
            Design design, Bus bus, int tolerancePs, ExternalLine outside, Progress progress) {
        return new RouteMatcher(design, bus, tolerancePs, outside, progress).run();
    }
}
