package padward.lesson.condition;

import padward.breakout.ask.Answer;

/** The three kinds of answers. */
public enum AnswerKind {
    /** A way exists now. */
    OPEN("open"),
    /** A way exists once occupants are freed. */
    BLOCKED("blocked"),
    /** There is no way. */
    NO_WAY("no-route");

    private final String label;

    AnswerKind(String label) {
        this.label = label;
    }

    /** The word that files use. */
    public String label() {
        return label;
    }

    /** The kind of an answer. */
    public static AnswerKind of(Answer answer) {
        if (answer instanceof Answer.Open) {
            return OPEN;
        }
        return answer instanceof Answer.Blocked ? BLOCKED : NO_WAY;
    }

    /** As people read it. */
    public String toText() {
        return this == NO_WAY ? "No way" : this == OPEN ? "Open" : "Blocked";
    }
}
