package padward.cli.manners;

import java.io.PrintWriter;
import java.util.Locale;
import padward.base.Progress;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;

/**
 * Reports the progress of long work on a terminal: a line after a second, then one every few, so
 * that short work prints nothing, and neither does what a script calls.
 */
public class ConsoleProgress implements Progress {
    private static final long FIRST_NANOS = 1_000_000_000L;
    private static final long BETWEEN_NANOS = 3_000_000_000L;

    private final PrintWriter err;
    private long next;
    private boolean known;
    private boolean shown;

    /**
     * Begins the first second.
     *
     * @param err where the lines go, on standard error
     */
    ConsoleProgress(PrintWriter err) {
        this.err = err;
        this.next = nanos() + FIRST_NANOS;
    }

    /** The progress of a command that begins now. */
    public static Progress of(CommandSpec spec) {
        CommandLine line = spec.commandLine();
        return of(line.getErr(), Manners.areQuiet(line));
    }

    /**
     * The progress of a command that begins now.
     *
     * @param err what stands for standard error
     * @param quiet whether nothing is printed but faults
     */
    public static Progress of(PrintWriter err, boolean quiet) {
        return quiet ? NONE : new ConsoleProgress(err);
    }

    @Override
    public synchronized void report(double fraction, String message) {
        long now = nanos();
        if (now - next < 0) {
            return;
        }
        next = now + BETWEEN_NANOS;
        // Only now, as most work ends within the first second and should not wait for this.
        if (!known) {
            shown = onTerminal();
            known = true;
        }
        if (!shown) {
            return;
        }
        String share = fraction < 0 ? "" : String.format(Locale.ROOT, " (%.0f %%)", fraction * 100);
        err.println("… " + message + share);
        err.flush();
    }

    @Override
    public boolean cancelled() {
        return Thread.currentThread().isInterrupted();
    }

    /** The present time of a clock that only runs forward. */
    long nanos() {
        return System.nanoTime();
    }

    /** Whether a person sees the lines. */
    boolean onTerminal() {
        return Terminal.showsErrors();
    }
}
