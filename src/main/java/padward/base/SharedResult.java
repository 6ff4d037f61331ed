package padward.base;

import java.util.concurrent.CancellationException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.ReentrantLock;

/**
 * A result that is calculated when it is first asked for, once, on the thread and with the {@link
 * Progress} of the caller that asks first. Callers that ask meanwhile wait, and each can be
 * cancelled by its own progress. A calculation that is cancelled or fails leaves nothing behind:
 * one of those that wait, or the next that asks, starts again.
 *
 * <p>Safe for all threads.
 *
 * @param <T> the result
 */
public final class SharedResult<T> {
    /** How a result is calculated. */
    @FunctionalInterface
    public interface Calculation<T> {
        /**
         * The result, never {@code null}.
         *
         * @throws CancellationException when {@code progress} says so
         */
        T calculate(Progress progress);
    }

    private static final long MILLIS_BETWEEN_CHECKS = 10;

    private final Calculation<? extends T> calculation;
    private final ReentrantLock turn = new ReentrantLock();
    private volatile T result;

    /**
     * @param calculation runs again after it was cancelled or failed, never after it succeeded
     */
    public SharedResult(Calculation<? extends T> calculation) {
        this.calculation = calculation;
    }

    /**
     * The result. O(1) once it is known.
     *
     * @throws CancellationException when {@code progress} says so before the result is known, or
     *     the thread is interrupted while it waits for another one
     */
    public T get(Progress progress) {
        T known = result;
        return known != null ? known : calculateOrWait(progress);
    }

    private T calculateOrWait(Progress progress) {
        awaitTurn(progress);
        try {
            if (result == null) {
                result = calculation.calculate(progress);
            }
            return result;
        } finally {
            turn.unlock();
        }
    }

    private void awaitTurn(Progress progress) {
        try {
            while (!turn.tryLock(MILLIS_BETWEEN_CHECKS, TimeUnit.MILLISECONDS)) {
                progress.check();
            }
        } catch (InterruptedException interrupted) {
            Thread.currentThread().interrupt();
            throw new CancellationException("interrupted");
        }
    }
}
