package padward.ui.work;

import java.util.Optional;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import padward.base.Progress;

/**
 * Work that is begun before there is anybody to watch it. Whoever takes it up later sees its
 * progress from then on, can stop it, and gets what it yields or how it failed.
 *
 * @param <T> what it yields
 */
public final class EarlyTask<T> implements Background.Work<T> {
    private final FutureTask<T> task;
    private volatile Progress watcher = Progress.NONE;

    /** Begins work on a thread of its own, which does not keep the program from ending. */
    public EarlyTask(Background.Work<T> work) {
        task = new FutureTask<>(() -> work.run(new Watched()));
        Thread thread = new Thread(task, "padward-ahead");
        thread.setDaemon(true);
        thread.start();
    }

    /** What it has yielded, if it has come to its end and to a good one. */
    public Optional<T> findResult() {
        if (!task.isDone()) {
            return Optional.empty();
        }
        try {
            return Optional.of(task.get());
        } catch (ExecutionException | InterruptedException fault) {
            // Told to whoever takes it up.
            return Optional.empty();
        }
    }

    /** Takes it up: waits for it. */
    @Override
    public T run(Progress progress) throws Exception {
        watcher = progress;
        return await();
    }

    /** Waits for it and does not watch it. */
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
