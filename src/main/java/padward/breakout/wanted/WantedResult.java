package padward.breakout.wanted;

import java.util.List;
import java.util.Optional;
import padward.breakout.ask.Answer;
import padward.design.Net;

/**
 * How a wanted net stands.
 *
 * @param wanted what is wanted
 * @param net the net in the present design
 * @param answer the answer for the best of its pads
 * @param before the answer for the best of its pads in the earlier design
 * @param changes against the earlier design
 * @param near where the net is gone: registers around it that are still there
 */
public record WantedResult(
        WantedNet wanted,
        Optional<Net> net,
        Optional<Answer> answer,
        Optional<Answer> before,
        List<WantedChange> changes,
        List<NearRegister> near) {
    /** Copies the lists. */
    public WantedResult {
        changes = List.copyOf(changes);
        near = List.copyOf(near);
    }

    /** Whether there is a route now, whatever port loses its pad. */
    public boolean isSeen() {
        return answer.filter(a -> a instanceof Answer.FreeRoute).isPresent();
    }

    /** Whether somebody has to look at it: it must be seen, and cannot, or something changed. */
    public boolean needsAttention() {
        return wanted.must() && (!isSeen() || !changes.isEmpty());
    }
}
