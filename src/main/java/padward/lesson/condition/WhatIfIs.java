package padward.lesson.condition;

import java.util.Optional;

/**
 * A trial waits to be kept or dropped, or none does.
 *
 * @param waits whether one shall wait
 * @param after the kind of answer that it gives; empty when that does not matter
 */
public record WhatIfIs(boolean waits, Optional<AnswerKind> after) implements Condition {
    @Override
    public boolean holds(WindowState state) {
        return state.whatIf().isPresent() == waits
                && after.map(
                                kind ->
                                        state.whatIf()
                                                .filter(t -> AnswerKind.of(t.after()) == kind)
                                                .isPresent())
                        .orElse(true);
    }

    @Override
    public String toText() {
        if (!waits) {
            return "no trial waits";
        }
        return "a trial waits"
                + after.map(k -> ", and with it the answer is " + k.toText()).orElse("");
    }

    @Override
    public Optional<String> seen(WindowState state) {
        return Optional.of(
                state.whatIf()
                        .map(
                                t ->
                                        "a trial waits; the answer is "
                                                + AnswerKind.of(t.after()).toText())
                        .orElse("no trial waits"));
    }
}
