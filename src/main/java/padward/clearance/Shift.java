package padward.clearance;

import java.util.OptionalInt;
import padward.fabric.Delay;

/**
 * What a move does to one net.
 *
 * @param net the net's name
 * @param sink the sink whose delay at the slow corner grows the most
 * @param before delay from the driver to that sink, before the move
 * @param after the same, after the move
 * @param slackBeforePs required time less the latest arrival at the slow corner, ps; empty when the
 *     design states no required time
 * @param slackAfterPs the same, after the move
 */
public record Shift(
        String net,
        String sink,
        Delay before,
        Delay after,
        OptionalInt slackBeforePs,
        OptionalInt slackAfterPs) {
    /** Whether the net meets its required time before the move and misses it after. */
    public boolean breaksTiming() {
        return slackAfterPs.orElse(0) < 0 && slackBeforePs.orElse(0) >= 0;
    }
}
