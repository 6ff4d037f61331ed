package padward.ui.work;

import java.util.Optional;
import java.util.concurrent.CancellationException;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.Consumer;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.DoubleProperty;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyDoubleProperty;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleDoubleProperty;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import padward.base.Progress;

/**
 * Work of one kind, one piece at a time: a new piece cancels and replaces the last. Faults become
 * notes. Used on the UI thread only.
 */
public final class JobSlot {
    /** Fraction of work whose end is not known. */
    static final double UNKNOWN = -1;

    private final Jobs jobs;
    private final Object about;
    private final BooleanProperty busy = new SimpleBooleanProperty(false);
    private final DoubleProperty fraction = new SimpleDoubleProperty(UNKNOWN);
    private final StringProperty message = new SimpleStringProperty("");
    private BackgroundWork.Job running = () -> {};

    /** Asks the running piece for what it has so far, if it can give that. */
    private Optional<Runnable> ending = Optional.empty();

    /** Goes on where the running piece ends without a result. */
    private Runnable otherwise = () -> {};

    /**
     * Work that is listed among the window's.
     *
     * @param jobs all work of the window
     * @param about the part of the program that it belongs to, for its notes
     */
    public JobSlot(Jobs jobs, Object about) {
        this.jobs = jobs;
        this.about = about;
    }

    /**
     * Starts a piece of work.
     *
     * @param what what it does, for the progress line
     */
    public <T> void start(String what, BackgroundWork.Work<T> work, Consumer<T> then) {
        start(what, work, then, () -> {});
    }

    /**
     * Starts a piece of work that interrupts another, which is to go on if there is no result.
     *
     * @param what what it does, for the progress line
     * @param otherwise goes on after a fault, before that becomes a note, or once the user has
     *     stopped it; not where another piece replaces it
     */
    public <T> void start(
            String what, BackgroundWork.Work<T> work, Consumer<T> then, Runnable otherwise) {
        start(what, work, then, Optional.empty(), otherwise);
    }

    /**
     * Starts a piece of work that has a result when it is stopped too: its progress says so then,
     * and what it returns is taken.
     *
     * @param what what it does, for the progress line
     */
    public <T> void startWithSoFar(String what, BackgroundWork.Work<T> work, Consumer<T> then) {
        AtomicBoolean end = new AtomicBoolean();
        start(
                what,
                progress -> soFar(work, progress, end),
                result -> result.ifPresent(then),
                Optional.of(() -> end.set(true)),
                () -> {});
    }

    private static <T> Optional<T> soFar(
            BackgroundWork.Work<T> work, Progress progress, AtomicBoolean end) throws Exception {
        try {
            return Optional.of(
                    work.run(
                            new Progress() {
                                @Override
                                public void report(double fraction, String doing) {
                                    progress.report(fraction, doing);
                                }

                                @Override
                                public boolean cancelled() {
                                    return end.get() || progress.cancelled();
                                }
                            }));
        } catch (CancellationException stopped) {
            // Stopped before it had anything; the slot must still know that it is over.
            return Optional.empty();
        }
    }

    private <T> void start(
            String what,
            BackgroundWork.Work<T> work,
            Consumer<T> then,
            Optional<Runnable> whenStopped,
            Runnable withoutResult) {
        running.cancel();
        ending = whenStopped;
        otherwise = withoutResult;
        jobs.notes().dismissAbout(about);
        fraction.set(UNKNOWN);
        message.set(what);
        busy.set(true);
        jobs.began(this);
        running =
                jobs.background()
                        .start(
                                work,
                                (share, doing) -> {
                                    fraction.set(share < 0 ? UNKNOWN : share);
                                    message.set(what + ": " + doing);
                                },
                                result -> {
                                    over();
                                    then.accept(result);
                                },
                                fault -> {
                                    over();
                                    withoutResult.run();
                                    jobs.notes().add(about, fault);
                                });
    }

    /**
     * Ends the running piece with what it has so far, if it can; else, or the second time, cancels.
     */
    void stop() {
        Optional<Runnable> asks = ending;
        ending = Optional.empty();
        asks.ifPresentOrElse(
                Runnable::run,
                () -> {
                    Runnable next = otherwise;
                    cancel();
                    next.run();
                });
    }

    /** Cancels the running piece. */
    public void cancel() {
        running.cancel();
        over();
    }

    private void over() {
        ending = Optional.empty();
        otherwise = () -> {};
        busy.set(false);
        jobs.ended(this);
    }

    /** Whether a piece is running. */
    public ReadOnlyBooleanProperty busyProperty() {
        return busy;
    }

    /** Share of it that is done, 0 to 1, or {@link #UNKNOWN}. */
    public ReadOnlyDoubleProperty fractionProperty() {
        return fraction;
    }

    /** What it is doing. */
    public ReadOnlyStringProperty messageProperty() {
        return message;
    }
}
