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
 * Who learns, and what is remembered of that. Changes are written one after the other, away from
 * the UI thread.
 */
public final class LearnerModel {
    private final Jobs jobs;
    private final LearnerFolder folder;
    private final Deque<UnaryOperator<LearnerRecord>> waiting = new ArrayDeque<>();
    private final ObjectProperty<LearnerRecord> record;
    private boolean writing;

    /**
     * Begins with whoever is logged in to the machine.
     *
     * @param folder where learners are remembered
     */
    public LearnerModel(Jobs jobs, LearnerFolder folder) {
        this.jobs = jobs;
        this.folder = folder;
        this.record =
                new SimpleObjectProperty<>(
                        LearnerRecord.of(System.getProperty("user.name", "learner")));
        changeTo(record.get().learner());
    }

    /** What is remembered of the learner. */
    ReadOnlyObjectProperty<LearnerRecord> recordProperty() {
        return record;
    }

    /** Another learner sits down. */
    void changeTo(String learner) {
        String name = learner.strip();
        if (!name.isEmpty()) {
            jobs.background()
                    .start(
                            progress -> folder.read(name),
                            record::set,
                            fault -> jobs.notes().tell(this, fault));
        }
    }

    /** Remembers something. */
    void remember(UnaryOperator<LearnerRecord> change) {
        waiting.add(change);
        writeNext();
    }

    private void writeNext() {
        Optional<UnaryOperator<LearnerRecord>> next =
                writing ? Optional.empty() : Optional.ofNullable(waiting.poll());
        if (next.isEmpty()) {
            return;
        }
        writing = true;
        String learner = record.get().learner();
        jobs.background()
                .start(
                        progress -> folder.change(learner, next.get()),
                        written -> {
                            record.set(written);
                            writing = false;
                            writeNext();
                        },
                        fault -> {
                            jobs.notes().tell(this, fault);
                            writing = false;
                            writeNext();
                        });
    }
}
