package padward.ui.lesson;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;
import java.util.function.UnaryOperator;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.SimpleObjectProperty;
import padward.lesson.LearnerRecord;
import padward.lesson.file.LearnerFolder;
import padward.ui.work.Jobs;

/**
 * The learner and the learner's progress. Changes are written one after the other, off the UI
 * thread.
 */
public final class LearnerModel {
    private final Jobs jobs;
    private final LearnerFolder folder;
    private final Deque<Waiting> waiting = new ArrayDeque<>();
    private final ObjectProperty<LearnerRecord> record;

    /** A change of the learner who was there when it was made. */
    private record Waiting(String learner, UnaryOperator<LearnerRecord> change) {}

    private boolean writing;

    /**
     * Begins with the user who is logged in.
     *
     * @param folder where the progress files are
     */
    public LearnerModel(Jobs jobs, LearnerFolder folder) {
        this.jobs = jobs;
        this.folder = folder;
        this.record =
                new SimpleObjectProperty<>(
                        LearnerRecord.of(System.getProperty("user.name", "learner")));
        changeTo(record.get().learner());
    }

    /** The learner's progress. */
    ReadOnlyObjectProperty<LearnerRecord> recordProperty() {
        return record;
    }

    /** Changes to another learner. */
    void changeTo(String learner) {
        String name = learner.strip();
        if (!name.isEmpty()) {
            jobs.background()
                    .start(
                            progress -> folder.read(name),
                            record::set,
                            fault -> jobs.notes().add(this, fault));
        }
    }

    /** Changes the progress, and saves it. */
    void update(UnaryOperator<LearnerRecord> change) {
        waiting.add(new Waiting(record.get().learner(), change));
        writeNext();
    }

    private void writeNext() {
        Optional<Waiting> next = writing ? Optional.empty() : Optional.ofNullable(waiting.poll());
        if (next.isEmpty()) {
            return;
        }
        writing = true;
        String learner = next.get().learner();
        jobs.background()
                .start(
                        progress -> folder.change(learner, next.get().change()),
                        written -> {
                            // Another learner may have taken over meanwhile.
                            if (record.get().learner().equals(learner)) {
                                record.set(written);
                            }
                            writing = false;
                            writeNext();
                        },
                        fault -> {
                            jobs.notes().add(this, fault);
                            writing = false;
                            writeNext();
                        });
    }
}
