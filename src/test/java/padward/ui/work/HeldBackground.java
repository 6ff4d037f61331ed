package padward.ui.work;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.function.Consumer;
import padward.base.Progress;

/**
 * A background whose jobs end when the test says so, in the order that it says. A job does its work
 * when it ends, as if it had been slow.
 */
public final class HeldBackground implements BackgroundWork {
    private final List<Held<?>> running = new ArrayList<>();

    /** A job that was started and has neither ended nor been cancelled. */
    private final class Held<T> implements Job, Progress {
        private final Work<T> work;
        private final Consumer<T> done;
        private final Consumer<Exception> failed;
        private boolean stopped;

        Held(Work<T> work, Consumer<T> done, Consumer<Exception> failed) {
            this.work = work;
            this.done = done;
            this.failed = failed;
        }

        @Override
        public void cancel() {
            stopped = true;
            running.remove(this);
        }

        @Override
        public void report(double fraction, String message) {}

        @Override
        public boolean cancelled() {
            return stopped;
        }

        private void end() {
            running.remove(this);
            T result;
            try {
                result = work.run(this);
            } catch (CancellationException stop) {
                return;
            } catch (Exception fault) {
                failed.accept(fault);
                return;
            }
            done.accept(result);
        }
    }

    @Override
    public <T> Job start(
            Work<T> work, Watcher watcher, Consumer<T> done, Consumer<Exception> failed) {
        Held<T> job = new Held<>(work, done, failed);
        running.add(job);
        return job;
    }

    /** Number of jobs that run, in the order of their starts. */
    public int running() {
        return running.size();
    }

    /** The jobs that run. */
    public List<Object> jobs() {
        return List.copyOf(running);
    }

    /** Ends a running job; one that was cancelled meanwhile does nothing. */
    public void end(Object job) {
        if (running.contains(job)) {
            ((Held<?>) job).end();
        }
    }

    /** Ends the jobs one after the other, those that they start too. */
    public void endAll() {
        while (!running.isEmpty()) {
            running.get(0).end();
        }
    }
}
