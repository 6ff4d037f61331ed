package padward.breakout;

/** Answers in words. */
public final class AnswerText {
    private AnswerText() {}

    /** The answer as a sentence that a person understands. */
    public static String sentence(Answer answer) {
        return answer.toString();
    }
}
