package padward.cli.output;

import java.io.PrintWriter;
import java.util.Locale;
import padward.base.Progress;

/**
 * Reports the progress of long work, a line every few seconds, so that short work prints nothing.
 */
public final class ConsoleProgress implements Progress {
    private static final long BETWEEN_NANOS = 3_000_000_000L;

    private final PrintWriter out;
    private long last = System.nanoTime();

    /**
     * @param out where the lines go; answers should go elsewhere
     */
    public ConsoleProgress(PrintWriter out) {
        this.out = out;
    }

    @Override
    public synchronized void report(double fraction, String message) {
        long now = System.nanoTime();
        if (now - last < BETWEEN_NANOS) {
            return;
        }
        last = now;
        String share = fraction < 0 ? "" : String.format(Locale.ROOT, " (%.0f %%)", fraction * 100);
        out.println("… " + message + share);
        out.flush();
    }

    @Override
    public boolean cancelled() {
        return Thread.currentThread().isInterrupted();
    }
}
