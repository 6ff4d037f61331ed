package padward.ui.work;

import java.util.List;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;

/** All running work of the window. */
public final class Jobs {
    private final BackgroundWork background;
    private final Notes notes;
    private final ObservableList<JobSlot> running = FXCollections.observableArrayList();

    /** A field, because the view gets changes only while something references it. */
    private final ObservableList<JobSlot> runningView =
            FXCollections.unmodifiableObservableList(running);

    private int stops;

    public Jobs(BackgroundWork background, Notes notes) {
        this.background = background;
        this.notes = notes;
    }

    /** Runs the work. */
    public BackgroundWork background() {
        return background;
    }

    /** The notes, which show faults of the work. */
    public Notes notes() {
        return notes;
    }

    /** The running jobs, the latest last. */
    public ObservableList<JobSlot> running() {
        return runningView;
    }

    void began(JobSlot job) {
        if (!running.contains(job)) {
            running.add(job);
        }
    }

    void ended(JobSlot job) {
        running.remove(job);
    }

    /** How often everything was stopped. */
    public int stops() {
        return stops;
    }

    /** Stops everything; what has something so far shows it. */
    public void cancelAll() {
        stops++;
        List.copyOf(running).forEach(JobSlot::stop);
    }
}
