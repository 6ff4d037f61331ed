package padward.ui.work;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.SimpleObjectProperty;

/** What was done and can be undone, and what was undone and can be done again. */
public final class History {
    /** Steps that are remembered. */
    static final int MOST = 200;

    /**
     * One step.
     *
     * @param what what was done, as a noun phrase: "keeping a on b"
     * @param back undoes it
     * @param again does it again
     */
    public record Step(String what, Runnable back, Runnable again) {}

    private final Deque<Step> done = new ArrayDeque<>();
    private final Deque<Step> undone = new ArrayDeque<>();
    private final ObjectProperty<Optional<String>> nextUndo =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<String>> nextRedo =
            new SimpleObjectProperty<>(Optional.empty());

    /** Remembers what has just been done; what was undone is forgotten. */
    public void did(Step step) {
        done.push(step);
        if (done.size() > MOST) {
            done.removeLast();
        }
        undone.clear();
        tell();
    }

    /** Undoes the last step, if there is one. */
    public void undo() {
        if (!done.isEmpty()) {
            Step step = done.pop();
            undone.push(step);
            tell();
            step.back().run();
        }
    }

    /** Does again what was undone last, if anything was. */
    public void redo() {
        if (!undone.isEmpty()) {
            Step step = undone.pop();
            done.push(step);
            tell();
            step.again().run();
        }
    }

    /** Forgets all. */
    public void clear() {
        done.clear();
        undone.clear();
        tell();
    }

    private void tell() {
        nextUndo.set(Optional.ofNullable(done.peek()).map(Step::what));
        nextRedo.set(Optional.ofNullable(undone.peek()).map(Step::what));
    }

    /** What would be undone next. */
    public ReadOnlyObjectProperty<Optional<String>> nextUndoProperty() {
        return nextUndo;
    }

    /** What would be done again next. */
    public ReadOnlyObjectProperty<Optional<String>> nextRedoProperty() {
        return nextRedo;
    }
}
