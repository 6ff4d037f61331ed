package padward.ui.work;

import java.util.List;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;

/** All work of the window that is going on. */
public final class Jobs {
    private final Background background;
    private final Notes notes;
    private final ObservableList<OneJob> running = FXCollections.observableArrayList();

    /** Held here, since it hears of changes only as long as somebody holds it. */
    private final ObservableList<OneJob> runningView =
            FXCollections.unmodifiableObservableList(running);

    public Jobs(Background background, Notes notes) {
        this.background = background;
        this.notes = notes;
    }

    /** Where the work is done. */
    public Background background() {
        return background;
    }

    /** Where faults of the work are told. */
    public Notes notes() {
        return notes;
    }

    /** What is at work, the latest last. */
    public ObservableList<OneJob> running() {
        return runningView;
    }

    void began(OneJob job) {
        if (!running.contains(job)) {
            running.add(job);
        }
    }

    void ended(OneJob job) {
        running.remove(job);
    }

    /** Stops everything. */
    public void cancelAll() {
        List.copyOf(running).forEach(OneJob::cancel);
    }
}
