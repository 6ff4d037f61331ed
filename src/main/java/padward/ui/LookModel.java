package padward.ui;

import javafx.beans.property.BooleanProperty;
import javafx.beans.property.SimpleBooleanProperty;

/** How the window looks, whatever is open in it. */
final class LookModel {
    private final BooleanProperty dark = new SimpleBooleanProperty(false);
    private final BooleanProperty lists = new SimpleBooleanProperty(true);

    /** Whether the dark theme is shown. */
    BooleanProperty darkProperty() {
        return dark;
    }

    /** Whether the lists beside the map are shown. */
    BooleanProperty listsProperty() {
        return lists;
    }
}
