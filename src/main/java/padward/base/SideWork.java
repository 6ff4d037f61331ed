package padward.base;

import java.util.concurrent.ExecutionException;
import java.util.concurrent.ForkJoinPool;
import java.util.concurrent.FutureTask;

/**
 * Work whose result is needed later, so that another processor can do it meanwhile, if there is one
 * free: whoever needs the result does the work when nobody has begun it. It is done once. Safe for
 * all threads.
 *
 * @param <T> its result
 * @param <E> what it throws, besides what is unchecked
 */
public final class SideWork<T, E extends Exception> {
    /** The work itself. */
    @FunctionalInterface
    public interface Work<T, E extends Exception> {
        /** Does it. */
        T run() throws E;
    }

    private final FutureTask<T> task;

    /** Work that nobody has begun. */
    public SideWork(Work<? extends T, ? extends E> work) {
        this.task = new FutureTask<>(work::run);
    }

    /** Lets another thread begin; does nothing where there is one processor only. */
    public void offer() {
        // A pool without threads would keep the work, with its result, for ever.
        if (ForkJoinPool.getCommonPoolParallelism() > 0) {
            ForkJoinPool.commonPool().execute(task);
        }
    }

    /**
     * Its result, once it is there. Waiting for it cannot be interrupted.
     *
     * @throws E when the work did
     */
    public T get() throws E {
        task.run(); // nothing when it has begun
        boolean interrupted = false;
        try {
            while (true) {
                try {
                    return task.get();
                } catch (InterruptedException e) {
                    interrupted = true;
                } catch (ExecutionException e) {
                    throw SideWork.<E>cause(e);
                }
            }
        } finally {
            if (interrupted) {
                Thread.currentThread().interrupt();
            }
        }
    }

    /** What the work threw, which is unchecked or what it declares. */
    @SuppressWarnings("unchecked")
    private static <E extends Exception> E cause(ExecutionException thrown) {
        if (thrown.getCause() instanceof Error error) {
            throw error;
        }
        if (thrown.getCause() instanceof RuntimeException fault) {
            throw fault;
        }
        return (E) thrown.getCause();
    }
}
