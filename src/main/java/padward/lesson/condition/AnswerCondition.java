package padward.lesson.condition;

import java.util.Optional;
import padward.breakout.ask.AnswerKind;

/**
 * The present answer is of the given kind.
 *
 * @param kind the kind
 */
public record AnswerCondition(AnswerKind kind) implements Condition {
    @Override
    public boolean isFulfilled(WindowState state) {
        return state.answer().filter(a -> AnswerKind.of(a) == kind).isPresent();
    }

    @Override
    public String toText() {
        return "the answer is " + kind.toText();
    }

    @Override
    public Optional<String> seen(WindowState state) {
        return state.answer().map(a -> "the answer is " + AnswerKind.of(a).toText());
    }
}
