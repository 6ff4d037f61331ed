package padward.breakout.wanted;

import java.util.Optional;
import padward.breakout.ask.AnswerKind;

/**
 * A register near a signal that is not there any more, whose net is.
 *
 * @param net name of its net in the present design
 * @param relation where it stood, seen from the signal
 * @param answer whether it has a route to the first of the pads that will do, where there are any
 */
public record NearRegister(String net, String relation, Optional<AnswerKind> answer) {
    NearRegister answered(AnswerKind kind) {
        return new NearRegister(net, relation, Optional.of(kind));
    }
}
