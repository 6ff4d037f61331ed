package padward.ui.control;

import javafx.beans.Observable;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.Spinner;
import javafx.scene.control.TextInputControl;
import javafx.scene.input.KeyEvent;

/**
 * Gives the keys of Undo and Redo to the window's history wherever the focus is. A text field has
 * them only while the user has changed its text since the last step of the history, since the last
 * question, and since the field got the focus: then they undo the typing.
 */
public final class UndoKeys {
    private final Action undo;
    private final Action redo;
    private String unedited = "";

    private UndoKeys(Action undo, Action redo) {
        this.undo = undo;
        this.redo = redo;
    }

    /**
     * Takes over the keys of a scene.
     *
     * @param steps what changes with each step of the history and each question
     */
    public static void install(Scene scene, Action undo, Action redo, Observable... steps) {
        UndoKeys keys = new UndoKeys(undo, redo);
        scene.addEventFilter(KeyEvent.KEY_PRESSED, e -> keys.press(e, scene.getFocusOwner()));
        scene.focusOwnerProperty().addListener((p, old, now) -> keys.note(now));
        for (Observable step : steps) {
            step.addListener(o -> keys.note(scene.getFocusOwner()));
        }
    }

    private void note(Node focus) {
        unedited = text(focus);
    }

    private static String text(Node focus) {
        if (focus instanceof Spinner<?> numbers && numbers.isEditable()) {
            // The spinner has the focus while its editor is typed in.
            return String.valueOf(numbers.getEditor().getText());
        }
        return focus instanceof TextInputControl field ? String.valueOf(field.getText()) : "";
    }

    private void press(KeyEvent event, Node focus) {
        if (!text(focus).equals(unedited)) {
            return;
        }
        for (Action action : new Action[] {undo, redo}) {
            if (action.keys().stream().anyMatch(k -> k.match(event))) {
                action.run();
                event.consume();
            }
        }
    }
}
