package padward.watch.condition;

/** How two numbers without a sign are compared. */
public enum Comparison {
    EQUAL("=="),
    DIFFERENT("!="),
    LESS("<"),
    AT_MOST("<="),
    GREATER(">"),
    AT_LEAST(">=");

    private final String sign;

    Comparison(String sign) {
        this.sign = sign;
    }

    /** As it is written. */
    public String sign() {
        return sign;
    }

    /** The comparison that is true while this one is not. */
    Comparison opposite() {
        return switch (this) {
            case EQUAL -> DIFFERENT;
            case DIFFERENT -> EQUAL;
            case LESS -> AT_LEAST;
            case AT_MOST -> GREATER;
            case GREATER -> AT_MOST;
            case AT_LEAST -> LESS;
        };
    }

    /** The same comparison with its sides exchanged. */
    Comparison exchanged() {
        return switch (this) {
            case EQUAL, DIFFERENT -> this;
            case LESS -> GREATER;
            case AT_MOST -> AT_LEAST;
            case GREATER -> LESS;
            case AT_LEAST -> AT_MOST;
        };
    }
}
