package padward.breakout.group;

import java.util.List;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.design.Design;
import padward.design.Net;
import padward.unblock.weigh.Removal;
import padward.unblock.why.SearchLimits;

/**
 * A group for which room was made: which occupants to free so that all nets are served that have
 * any way at all.
 *
 * @param bus the group as it can be laid then
 * @param freed what is freed, each occupant once
 * @param atLeast no fewer occupants than this will do
 * @param provenFewest whether it is proven that no fewer will do
 */
public record UnblockedGroup(Bus bus, List<Freed> freed, int atLeast, boolean provenFewest) {
    /** Copies the list. */
    public UnblockedGroup {
        freed = List.copyOf(freed);
    }

    /**
     * One occupant that is freed.
     *
     * @param blocked the question of the line for which it is freed
     * @param removal the occupant, and what freeing it means
     */
    public record Freed(Answer.Blocked blocked, Removal removal) {}

    /**
     * Finds what to free. Pads are chosen so that quick answers name the fewest obstacles in all;
     * then each blocked line is explained in turn, on the design as the lines before have cleared
     * it, with the fewest obstacles for that line; then all ways are laid together; then what has
     * turned out needless is put back. That need not be the fewest for the group: whether it is, a
     * lower bound tells ({@link GroupBound}).
     *
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    public static UnblockedGroup of(
            Design design,
            List<Net> nets,
            List<Integer> pads,
            Bus.Aim aim,
            SearchLimits limits,
            Progress progress) {
        return new GroupUnblocking(BusRequest.of(design, nets, pads, aim), limits, progress).run();
    }
}
