package padward.base;

/** What is done when the program is ended from outside before the work is over. */
public final class OnInterrupt implements AutoCloseable {
    private final Thread hook;

    /** Asks for it. */
    public OnInterrupt(Runnable work) {
        hook = new Thread(work);
        try {
            Runtime.getRuntime().addShutdownHook(hook);
        } catch (IllegalStateException ending) {
            // The program is ending already; what is left lying then does no harm.
        }
    }

    /** The work is over. */
    @Override
    public void close() {
        try {
            Runtime.getRuntime().removeShutdownHook(hook);
        } catch (IllegalStateException ending) {
            // The hook runs.
        }
    }
}
