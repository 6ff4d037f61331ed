package padward.base;

import java.util.concurrent.CancellationException;

/**
 * How long work reports its progress, and how its caller asks it to stop. Implementations are
 * called from the working thread, often; they must be quick and must not touch a screen.
 */
public interface Progress {
    /** Reports nothing and never cancels. */
    Progress NONE =
            new Progress() {
                @Override
                public void report(double fraction, String message) {}

                @Override
                public boolean cancelled() {
                    return false;
                }
            };

    /**
     * @param fraction share of the work done, 0 to 1; negative when it cannot be known
     * @param message what is being done, in plain words
     */
    void report(double fraction, String message);

    /** Whether the caller wants the work to stop as soon as it can. */
    boolean cancelled();

    /**
     * Ends the work if its caller wants that.
     *
     * @throws CancellationException when cancelled
     */
    default void check() {
        if (cancelled()) {
            throw new CancellationException("stopped on request");
        }
    }

    /**
     * The same, but also cancelled once that many milliseconds from now have passed.
     *
     * @param millis at least 0
     */
    default Progress within(long millis) {
        // Half of what a difference of two times can be, 146 years, is no limit.
        long nanos = Math.min(millis, (Long.MAX_VALUE >>> 1) / 1_000_000L) * 1_000_000L;
        long end = System.nanoTime() + nanos;
        Progress outer = this;
        return new Progress() {
            @Override
            public void report(double fraction, String message) {
                outer.report(fraction, message);
            }

            @Override
            public boolean cancelled() {
                return outer.cancelled() || System.nanoTime() - end >= 0;
            }
        };
    }
}
