package padward.hostile;

import java.lang.management.ManagementFactory;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import java.util.concurrent.TimeUnit;
import padward.base.BadInput;
import padward.fabric.delay.DelayTooLong;

/**
 * Runs the reading of one input on a thread with a small stack, and says what was wrong: any
 * failure but a reported fault, or more time than an input may take.
 */
final class Judge {
    private static final int STACK = 512 * 1024;
    private static final long MOST_CPU_NANOS = TimeUnit.SECONDS.toNanos(5);

    /** The machine may have other work: what counts is the time of the processor. */
    private static final long MOST_NANOS = TimeUnit.MINUTES.toNanos(10);

    private static final long LOOK_MILLIS = 500;

    /** Reads an input and checks what comes of it. */
    interface Reading {
        void run() throws Exception;
    }

    private final Reading reading;
    private volatile Optional<Throwable> failure = Optional.empty();
    private volatile boolean refused;
    private volatile long nanos;

    private Judge(Reading reading) {
        this.reading = reading;
    }

    /**
     * What came of an input.
     *
     * @param refused whether a fault was reported
     * @param failure what must not happen; empty when all is well
     */
    record Verdict(boolean refused, Optional<Throwable> failure) {}

    static Verdict judge(Reading reading) throws InterruptedException {
        Judge judge = new Judge(reading);
        Thread thread = new Thread(null, judge::run, "hostile input", STACK);
        thread.setDaemon(true);
        thread.start();
        if (!ends(thread)) {
            Throwable hangs = new AssertionError("no end");
            hangs.setStackTrace(thread.getStackTrace());
            return new Verdict(false, Optional.of(hangs));
        }
        if (judge.nanos > MOST_CPU_NANOS && judge.failure.isEmpty()) {
            long millis = TimeUnit.NANOSECONDS.toMillis(judge.nanos);
            return new Verdict(false, Optional.of(new AssertionError(millis + " ms")));
        }
        return new Verdict(judge.refused, judge.failure);
    }

    /** Waits for the end of a thread, as long as it uses less of the processor than it may. */
    private static boolean ends(Thread thread) throws InterruptedException {
        long begin = System.nanoTime();
        long used = 0;
        while (used <= 2 * MOST_CPU_NANOS && System.nanoTime() - begin < MOST_NANOS) {
            thread.join(LOOK_MILLIS);
            if (!thread.isAlive()) {
                return true;
            }
            used = ManagementFactory.getThreadMXBean().getThreadCpuTime(thread.getId());
        }
        return false;
    }

    private void run() {
        long begin = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
        try {
            reading.run();
        } catch (BadInput fault) {
            refused = true;
            if (fault.expected().isBlank() || fault.found().isBlank()) {
                failure = Optional.of(new AssertionError("says nothing", fault));
            }
        } catch (DelayTooLong | CancellationException reported) {
            refused = true;
        } catch (Throwable wrong) {
            failure = Optional.of(wrong);
        }
        nanos = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - begin;
    }
}
