package padward.ui.work;

import java.util.Optional;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import padward.base.Progress;

/**
 * Work that starts before its result is asked for. A later caller takes it over: from then on it
 * sees the progress, can cancel it, and gets the result or the exception.
 *
 * @param <T> the result
 */
public final class PrefetchTask<T> implements BackgroundWork.Work<T> {
    private final FutureTask<T> task;
    private volatile Progress watcher = Progress.NONE;

    /** Starts work on its own daemon thread. */
    public PrefetchTask(BackgroundWork.Work<T> work) {
        task = new FutureTask<>(() -> work.run(new Watched()));
        Thread thread = new Thread(task, "padward-ahead");
        thread.setDaemon(true);
        thread.start();
    }

    /** The result, if it has ended without an exception. */
    public Optional<T> findResult() {
        if (!task.isDone()) {
            return Optional.empty();
        }
        try {
            return Optional.of(task.get());
        } catch (ExecutionException | InterruptedException fault) {
            // The caller that takes it over gets the exception.
            return Optional.empty();
        }
    }

    /** Takes it over and waits for the result. */
    @Override
    public T run(Progress progress) throws Exception {
        watcher = progress;
        return await();
    }

    /** Waits for the result without watching the progress. */
    public T await() throws Exception {
        try {
            return task.get();
        } catch (ExecutionException failed) {
            if (failed.getCause() instanceof Exception fault) {
                throw fault;
            }
            throw (Error) failed.getCause();
        }
    }

    private final class Watched implements Progress {
        @Override
        public void report(double fraction, String message) {
            watcher.report(fraction, message);
        }

        @Override
        public boolean cancelled() {
            return watcher.cancelled();
        }
    }
}
