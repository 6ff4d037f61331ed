package padward.ui.work;

import java.util.concurrent.Callable;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Consumer;
import padward.base.Progress;

/** Runs long work away from the UI thread; in tests, at once on the same thread. */
public interface BackgroundWork {
    /** Running work that can be cancelled. */
    interface Job {
        void cancel();
    }

    /** The work; it reports its progress. */
    interface Work<T> {
        T run(Progress progress) throws Exception;
    }

    /** Receives the progress of work. */
    interface Watcher {
        /**
         * @param fraction share of the work done, 0 to 1; negative when it cannot be known
         * @param message what is being done
         */
        void progressed(double fraction, String message);
    }

    /**
     * Starts work. Exactly one of the two consumers is called, on the UI thread, unless the job was
     * cancelled; the watcher is called there too, not more often than a person can read.
     */
    <T> Job start(Work<T> work, Watcher watcher, Consumer<T> done, Consumer<Exception> failed);

    /** Starts work without a watcher. */
    default <T> Job start(Work<T> work, Consumer<T> done, Consumer<Exception> failed) {
        return start(work, (fraction, message) -> {}, done, failed);
    }

    /** Runs something on the UI thread after a delay, unless it is cancelled before. */
    default Job after(int millis, Runnable then) {
        return start(
                progress -> {
                    pause(millis);
                    return millis;
                },
                waited -> then.run(),
                fault -> {});
    }

    /** Waits, if work has its own threads. */
    default void pause(int millis) throws InterruptedException {
        Thread.sleep(millis);
    }

    /** On its own threads, one for each running job; {@code uiThread} runs the consumers. */
    static BackgroundWork threaded(Consumer<Runnable> uiThread) {
        ExecutorService worker =
                Executors.newCachedThreadPool(
                        run -> {
                            Thread thread = new Thread(run, "padward-work");
                            thread.setDaemon(true);
                            return thread;
                        });
        return new BackgroundWork() {
            @Override
            public <T> Job start(
                    Work<T> work, Watcher watcher, Consumer<T> done, Consumer<Exception> failed) {
                Flag flag = new Flag(watcher, uiThread);
                worker.submit(() -> perform(() -> work.run(flag), done, failed, flag, uiThread));
                return flag;
            }
        };
    }

    /** At once, on the calling thread. */
    static BackgroundWork immediate() {
        return new BackgroundWork() {
            @Override
            public <T> Job start(
                    Work<T> work, Watcher watcher, Consumer<T> done, Consumer<Exception> failed) {
                Flag flag = new Flag(watcher, Runnable::run);
                perform(() -> work.run(flag), done, failed, flag, Runnable::run);
                return flag;
            }

            @Override
            public void pause(int millis) {
                // Nothing else could happen in the meantime.
            }
        };
    }

    private static <T> void perform(
            Callable<T> call,
            Consumer<T> done,
            Consumer<Exception> failed,
            Flag flag,
            Consumer<Runnable> uiThread) {
        if (flag.cancelled()) {
            return;
        }
        T result;
        try {
            result = call.call();
        } catch (CancellationException stopped) {
            return;
        } catch (Exception fault) {
            uiThread.accept(() -> unlessCancelled(flag, () -> failed.accept(fault)));
            return;
        } catch (Error broken) {
            // For example out of memory: the job has ended, and its caller must know.
            Exception fault = new IllegalStateException("Failed: " + broken, broken);
            uiThread.accept(() -> unlessCancelled(flag, () -> failed.accept(fault)));
            return;
        }
        uiThread.accept(() -> unlessCancelled(flag, () -> done.accept(result)));
    }

    private static void unlessCancelled(Flag flag, Runnable then) {
        if (!flag.cancelled()) {
            then.run();
        }
    }

    /** The stop flag of a job, which is also the progress that its work reports to. */
    final class Flag implements Job, Progress {
        private static final long QUIET_NANOS = 60_000_000;

        private final AtomicBoolean stop = new AtomicBoolean();
        private final Watcher watcher;
        private final Consumer<Runnable> uiThread;
        private final AtomicLong quietUntil = new AtomicLong(System.nanoTime());

        Flag(Watcher watcher, Consumer<Runnable> uiThread) {
            this.watcher = watcher;
            this.uiThread = uiThread;
        }

        @Override
        public void cancel() {
            stop.set(true);
        }

        @Override
        public void report(double fraction, String message) {
            long now = System.nanoTime();
            long until = quietUntil.get();
            if (now - until >= 0 && quietUntil.compareAndSet(until, now + QUIET_NANOS)) {
                uiThread.accept(
                        () -> unlessCancelled(this, () -> watcher.progressed(fraction, message)));
            }
        }

        @Override
        public boolean cancelled() {
            return stop.get();
        }
    }
}
