package padward.ui.work;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.SimpleObjectProperty;

/** The steps that can be undone, and those that can be redone. */
public final class History {
    /** Number of steps that are remembered. */
    static final int MOST = 200;

    /**
     * One step.
     *
     * @param what the step as a noun phrase: "keeping a on b"
     * @param back undoes it
     * @param again redoes it
     */
    public record Step(String what, Runnable back, Runnable again) {}

    private final Deque<Step> done = new ArrayDeque<>();
    private final Deque<Step> undone = new ArrayDeque<>();
    private final ObjectProperty<Optional<String>> nextUndo =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<String>> nextRedo =
            new SimpleObjectProperty<>(Optional.empty());

    /** Adds the step that was just done; undone steps are forgotten. */
    public void did(Step step) {
        done.push(step);
        if (done.size() > MOST) {
            done.removeLast();
        }
        undone.clear();
        publish();
    }

    /** Undoes the last step, if there is one. */
    public void undo() {
        if (!done.isEmpty()) {
            Step step = done.pop();
            undone.push(step);
            publish();
            step.back().run();
        }
    }

    /** Redoes the step that was undone last, if there is one. */
    public void redo() {
        if (!undone.isEmpty()) {
            Step step = undone.pop();
            done.push(step);
            publish();
            step.again().run();
        }
    }

    /** Forgets all. */
    public void clear() {
        done.clear();
        undone.clear();
        publish();
    }

    private void publish() {
        nextUndo.set(Optional.ofNullable(done.peek()).map(Step::what));
        nextRedo.set(Optional.ofNullable(undone.peek()).map(Step::what));
    }

    /** The step that would be undone next. */
    public ReadOnlyObjectProperty<Optional<String>> nextUndoProperty() {
        return nextUndo;
    }

    /** The step that would be redone next. */
    public ReadOnlyObjectProperty<Optional<String>> nextRedoProperty() {
        return nextRedo;
    }
}
