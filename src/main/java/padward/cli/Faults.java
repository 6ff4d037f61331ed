package padward.cli;

import java.io.PrintWriter;
import java.util.concurrent.Callable;
import padward.base.BadInput;
import padward.cli.output.ExitStatus;
import padward.fabric.delay.DelayTooLong;

/** How a command that fails is reported, and with which exit status. */
final class Faults {
    private static final int MIB = 1 << 20;

    private Faults() {}

    /**
     * Bad input is reported in one line; anything else is an internal error, reported with its
     * trace.
     *
     * @param design the design's file as it was given; empty when there is none
     * @return the exit status
     */
    static int report(Exception fault, String design, PrintWriter err) {
        if (fault instanceof DelayTooLong) {
            String where = design.isEmpty() ? "" : design + ": ";
            String limit = "expected " + fault.getMessage() + ", found a longer route";
            err.println("padward: " + where + limit);
        } else if (fault instanceof BadInput) {
            err.println("padward: " + fault.getMessage());
        } else {
            return failed(fault, err);
        }
        err.flush();
        return ExitStatus.BAD_INPUT;
    }

    /** An internal error, with its trace. */
    static int failed(Throwable fault, PrintWriter err) {
        err.println("padward: internal error:");
        fault.printStackTrace(err);
        err.flush();
        return ExitStatus.FAILED;
    }

    /**
     * Calls a command, whatever happens there.
     *
     * @param design the design's file as it was given; empty when there is none
     * @return the exit status; never that of an answer when there was none
     */
    static int guarded(Callable<Integer> command, String design, PrintWriter err) {
        try {
            return command.call();
        } catch (Exception fault) {
            return report(fault, design, err);
        } catch (OutOfMemoryError full) {
            err.println(
                    "padward: expected more memory, found "
                            + Runtime.getRuntime().maxMemory() / MIB
                            + " MiB; java -Xmx4g -jar … gives it 4 GiB");
            err.flush();
            return ExitStatus.FAILED;
        } catch (StackOverflowError | LinkageError fault) {
            return failed(fault, err);
        }
    }
}
