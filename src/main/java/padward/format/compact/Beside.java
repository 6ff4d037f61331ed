package padward.format.compact;

import padward.base.Progress;

/**
 * The progress of {@link padward.base.SideWork} on another thread: it tells the caller nothing, and
 * stops also when its result is not needed any more. Whoever offers such work calls {@link #end} in
 * a {@code finally}. Safe for all threads.
 */
public final class Beside implements Progress {
    private final Progress caller;
    private volatile boolean over;

    /**
     * @param caller asked whether to stop, by whichever thread does the work
     */
    public Beside(Progress caller) {
        this.caller = caller;
    }

    /** Stops the work, if it is not done yet. */
    public void end() {
        over = true;
    }

    @Override
    public void report(double fraction, String message) {
        // whoever waits for a copy waits a moment
    }

    @Override
    public boolean cancelled() {
        return over || caller.cancelled();
    }
}
