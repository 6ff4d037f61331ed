package padward.example;

import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import padward.base.Progress;

/**
 * A progress that notes how many bytes its thread allocates between two of its checks: a measure of
 * work that does not depend on how busy the machine is. It never cancels.
 */
public final class AllocationChecked implements Progress {
    private static final ThreadMXBean THREADS = (ThreadMXBean) ManagementFactory.getThreadMXBean();

    private final long thread = Thread.currentThread().getId();
    private final long first = allocated();
    private long last = first;
    private long most;

    private long allocated() {
        return THREADS.getThreadAllocatedBytes(thread);
    }

    @Override
    public void report(double fraction, String message) {}

    @Override
    public boolean cancelled() {
        note();
        return false;
    }

    private void note() {
        long now = allocated();
        most = Math.max(most, now - last);
        last = now;
    }

    /** The most so far, what came since the last check included. */
    public long most() {
        note();
        return most;
    }

    /** All that was allocated so far. */
    public long sum() {
        return allocated() - first;
    }
}
