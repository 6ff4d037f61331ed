package padward.lesson.condition;

import padward.breakout.ask.Answer;

/** The three kinds of answer. */
public enum AnswerKind {
    /** A route exists now. */
    OPEN("open"),
    /** A route exists once obstacles are removed. */
    BLOCKED("blocked"),
    /** There is no route, not even on an empty fabric. */
    NO_ROUTE("no-route");

    private final String label;

    AnswerKind(String label) {
        this.label = label;
    }

    /** The word in files. */
    public String label() {
        return label;
    }

    /** The kind of an answer. */
    public static AnswerKind of(Answer answer) {
        if (answer instanceof Answer.Open) {
            return OPEN;
        }
        return answer instanceof Answer.Blocked ? BLOCKED : NO_ROUTE;
    }

    /** The word on screen. */
    public String toText() {
        return this == NO_ROUTE ? "No route" : this == OPEN ? "Open" : "Blocked";
    }
}
