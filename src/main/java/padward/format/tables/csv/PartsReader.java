package padward.format.tables.csv;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ForkJoinPool;
import java.util.concurrent.FutureTask;
import java.util.function.Function;
import java.util.function.Predicate;

/**
 * Takes lines from a reader, makes something of them on all processors, and hands it on in their
 * order. Ends at the first lines that are not as plain as that: these and all behind them are then
 * where they were, so that what is said of them does not depend on threads. Once it has ended, no
 * other thread reads anything.
 */
final class PartsReader<P> {
    private static final int AHEAD = 2 * Runtime.getRuntime().availableProcessors() + 2;

    /**
     * What was made of some lines.
     *
     * @param made it
     * @param rows how many rows they are
     * @param sound whether there is nothing to report, and each line is a row
     */
    record Part<P>(P made, long rows, boolean sound) {}

    private record Pending<P>(char[] lines, FutureTask<Part<P>> task) {}

    private final RowReader rows;
    private final Function<char[], Part<P>> read;
    private final Predicate<P> take;
    private final Deque<Pending<P>> pending = new ArrayDeque<>();
    private volatile boolean ended;

    PartsReader(RowReader rows, Function<char[], Part<P>> read, Predicate<P> take) {
        this.rows = rows;
        this.read = read;
        this.take = take;
    }

    void run() {
        try {
            while (fill() && takeFirst()) {
                continue;
            }
        } finally {
            end();
            List<char[]> left = new ArrayList<>();
            pending.forEach(p -> left.add(p.lines()));
            rows.putBack(left);
        }
    }

    /** Leaves out what has not begun, and waits for what has. */
    private void end() {
        ended = true;
        boolean interrupted = false;
        for (Pending<P> each : pending) {
            each.task().run(); // nothing when it has begun, else it sees that this has ended
            while (!each.task().isDone()) {
                try {
                    each.task().get();
                } catch (ExecutionException e) {
                    // these lines are read again, or the fault of others is reported
                } catch (InterruptedException e) {
                    interrupted = true;
                }
            }
        }
        if (interrupted) {
            Thread.currentThread().interrupt();
        }
    }

    private Part<P> make(char[] lines) {
        if (ended) {
            throw new CancellationException("reading a table");
        }
        return read.apply(lines);
    }

    /** Whether there are parts that were not handed on yet. */
    private boolean fill() {
        boolean more = true;
        while (more && pending.size() < AHEAD) {
            Optional<char[]> lines = rows.takeLines();
            lines.ifPresent(this::start);
            more = lines.isPresent();
        }
        return !pending.isEmpty();
    }

    private void start(char[] lines) {
        FutureTask<Part<P>> task = new FutureTask<>(() -> make(lines));
        pending.add(new Pending<>(lines, task));
        ForkJoinPool.commonPool().execute(task);
    }

    /** Hands on the first part; false, and it stays the first, when that is not possible. */
    private boolean takeFirst() {
        Part<P> first = get();
        if (!first.sound() || !take.test(first.made())) {
            return false;
        }
        rows.count(first.rows());
        pending.remove();
        return true;
    }

    /** The first part; while it is made elsewhere, this thread makes others. */
    private Part<P> get() {
        FutureTask<Part<P>> first = pending.element().task();
        for (Pending<P> each : pending) {
            if (!first.isDone()) {
                each.task().run(); // nothing when it has begun
            }
        }
        try {
            return first.get();
        } catch (ExecutionException e) {
            if (e.getCause() instanceof Error error) {
                throw error;
            }
            if (e.getCause() instanceof RuntimeException fault) {
                throw fault;
            }
            throw new IllegalStateException(e.getCause());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new CancellationException("reading a table");
        }
    }
}
