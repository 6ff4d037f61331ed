package padward.breakout.group;

import java.util.List;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import padward.base.Progress;
import padward.breakout.ask.WantedDriver;
import padward.design.Design;
import padward.design.Net;
import padward.unblock.why.SearchLimits;

/**
 * What came of the search for what to remove, so that nets of a group without a free route are
 * served too.
 *
 * @param found the group with that removed; empty when there is nothing to remove, or that is not
 *     known
 * @param stopped whether the time ran out before it was known
 */
public record Unblocking(Optional<UnblockedGroup> found, boolean stopped) {
    /** Not asked for, or of no use. */
    public static final Unblocking NONE = new Unblocking(Optional.empty(), false);

    private static final Unblocking STOPPED = new Unblocking(Optional.empty(), true);

    /**
     * Searches what to remove. When {@code progress} says to stop, that is the result.
     *
     * @param group the group over free routes
     * @param nets the nets, in the order of the bits
     * @param pads indices of pads that may be taken
     */
    public static Unblocking of(
            Design design,
            Bus group,
            List<Net> nets,
            List<Integer> pads,
            Bus.Aim aim,
            Bus.Ports ports,
            WantedDriver driver,
            Progress progress) {
        if (group.isStopped() && !group.left().isEmpty()) {
            return STOPPED;
        }
        try {
            if (group.left().stream().noneMatch(l -> l.couldBeUnblocked(progress))) {
                return NONE;
            }
            return new Unblocking(
                    Optional.of(
                            UnblockedGroup.of(
                                    design,
                                    nets,
                                    pads,
                                    aim,
                                    ports,
                                    driver,
                                    SearchLimits.USUAL,
                                    progress)),
                    false);
        } catch (CancellationException stopped) {
            return STOPPED;
        }
    }
}
