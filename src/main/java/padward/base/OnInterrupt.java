package padward.base;

/** Runs something if the program is ended from outside before the work is done. */
public final class OnInterrupt implements AutoCloseable {
    private final Thread hook;

    /** Registers what is run. */
    public OnInterrupt(Runnable work) {
        hook = new Thread(work);
        try {
            Runtime.getRuntime().addShutdownHook(hook);
        } catch (IllegalStateException ending) {
            // The program is ending already; leftovers do no damage.
        }
    }

    /** The work is done. */
    @Override
    public void close() {
        try {
            Runtime.getRuntime().removeShutdownHook(hook);
        } catch (IllegalStateException ending) {
            // The hook runs.
        }
    }
}
