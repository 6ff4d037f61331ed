package padward.lesson.condition;

import java.util.Optional;
import padward.breakout.ask.AnswerKind;

/**
 * A what-if can be kept or dropped now, or there is none.
 *
 * @param pending whether there must be one
 * @param after the kind of its answer; empty matches any
 */
public record WhatIfCondition(boolean pending, Optional<AnswerKind> after) implements Condition {
    @Override
    public boolean isFulfilled(WindowState state) {
        return state.whatIf().isPresent() == pending
                && after.map(
                                kind ->
                                        state.whatIf()
                                                .filter(t -> AnswerKind.of(t.after()) == kind)
                                                .isPresent())
                        .orElse(true);
    }

    @Override
    public String toText() {
        if (!pending) {
            return "there is no what-if";
        }
        return "there is a what-if" + after.map(k -> " whose answer is " + k.toText()).orElse("");
    }

    @Override
    public Optional<String> seen(WindowState state) {
        return Optional.of(
                state.whatIf()
                        .map(
                                t ->
                                        "there is a what-if whose answer is "
                                                + AnswerKind.of(t.after()).toText())
                        .orElse("there is no what-if"));
    }
}
