package padward.ui.control;

import javafx.scene.control.ChoiceBox;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;

/** Lists of choices. */
public final class Choices {
    private Choices() {}

    /** A list of choices in which Down and Up choose the next one and the one before. */
    public static <T> ChoiceBox<T> box() {
        ChoiceBox<T> box = new ChoiceBox<>();
        box.addEventFilter(KeyEvent.ANY, e -> choose(box, e));
        return box;
    }

    /** The list itself would open when the key is released. */
    private static void choose(ChoiceBox<?> box, KeyEvent event) {
        KeyCode key = event.getCode();
        if (box.isShowing() || key != KeyCode.DOWN && key != KeyCode.UP) {
            return;
        }
        if (event.getEventType() == KeyEvent.KEY_PRESSED && key == KeyCode.DOWN) {
            box.getSelectionModel().selectNext();
        } else if (event.getEventType() == KeyEvent.KEY_PRESSED) {
            box.getSelectionModel().selectPrevious();
        }
        event.consume();
    }
}
