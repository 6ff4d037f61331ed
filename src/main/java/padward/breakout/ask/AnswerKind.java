package padward.breakout.ask;

/** The four kinds of answer, with their words in files and on screen. */
public enum AnswerKind {
    /** A route exists now and costs nobody anything. */
    OPEN("open", "Open"),
    /** A route exists now, but a port of the design loses its pad. */
    TAKES_PORT("takes-port", "Takes a port's pad"),
    /** A route exists once obstacles are removed. */
    BLOCKED("blocked", "Blocked"),
    /** There is no route, whatever other nets and cells are removed. */
    NO_ROUTE("no-route", "No route");

    private final String label;
    private final String text;

    AnswerKind(String label, String text) {
        this.label = label;
        this.text = text;
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
        if (answer instanceof Answer.TakesPort) {
            return TAKES_PORT;
        }
        return answer instanceof Answer.Blocked ? BLOCKED : NO_ROUTE;
    }

    /** The words on screen. */
    public String toText() {
        return text;
    }
}
