package padward.fabric.delay;

/** A sum of delays is longer than {@link Integer#MAX_VALUE} picoseconds, some two milliseconds. */
public final class DelayTooLong extends ArithmeticException {
    private static final long serialVersionUID = 1;

    /** Says what the limit is, as the second half of a sentence about what was expected. */
    public DelayTooLong() {
        super("delays that together are at most " + Integer.MAX_VALUE + " ps");
    }
}
