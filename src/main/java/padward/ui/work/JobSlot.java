package padward.ui.work;

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
    private Background.Job running = () -> {};

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
    public <T> void start(String what, Background.Work<T> work, Consumer<T> then) {
        running.cancel();
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
                                    jobs.notes().add(about, fault);
                                });
    }

    /** Cancels the running piece. */
    public void cancel() {
        running.cancel();
        over();
    }

    private void over() {
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
