package padward.cli.output;

/** The exit statuses of the command line. They are promised to scripts: never change a number. */
public final class ExitStatus {
    /** The answer is Open, or the work is done. */
    public static final int DONE = 0;

    /** The answer takes a port's pad, is Blocked or NoRoute, or a comparison found a difference. */
    public static final int NOT_OPEN = 1;

    /** Something in the input is wrong. */
    public static final int BAD_INPUT = 2;

    /** An internal error, or the machine failed. */
    public static final int FAILED = 3;

    private ExitStatus() {}
}
