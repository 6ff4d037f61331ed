package padward.watch.circuit;

/**
 * From which state of its registers a circuit works.
 *
 * @param kind from any state, or from which
 * @param cycles clock cycles after which its output means what it should, counted from the start or
 *     from the end of the reset
 */
public record StartState(Kind kind, int cycles) {
    /** Where a circuit begins. */
    public enum Kind {
        /** It works from any state. */
        ANY_STATE,
        /** It works once its reset was active at a clock edge. */
        AFTER_RESET,
        /** It needs the initial values that its registers state. */
        INITIAL_VALUES
    }

    /** From any state, after so many cycles. */
    public static StartState any(int cycles) {
        return new StartState(Kind.ANY_STATE, cycles);
    }
}
