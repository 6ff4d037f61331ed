package padward.ui.model;

import javafx.beans.binding.DoubleBinding;
import javafx.beans.binding.DoubleExpression;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.IntegerProperty;
import javafx.beans.property.ReadOnlyIntegerProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleIntegerProperty;

/** How the window looks, whatever is open in it. */
public final class LookModel {
    /** Usual size of text, pixels. */
    public static final int USUAL_TEXT = 14;

    private static final int SMALLEST_TEXT = 10;
    private static final int LARGEST_TEXT = 26;

    private final BooleanProperty dark = new SimpleBooleanProperty(false);
    private final BooleanProperty lists = new SimpleBooleanProperty(true);
    private final IntegerProperty textSize = new SimpleIntegerProperty(USUAL_TEXT);
    private final DoubleBinding letters = textSize.divide((double) USUAL_TEXT);

    /** Whether the dark theme is shown. */
    public BooleanProperty darkProperty() {
        return dark;
    }

    /** Whether the lists beside the map are shown. */
    public BooleanProperty listsProperty() {
        return lists;
    }

    /** Size of text, pixels of a display that is not scaled. */
    public ReadOnlyIntegerProperty textSizeProperty() {
        return textSize;
    }

    /** Sets the size of text, as near as is legible and has room. */
    public void setTextSize(int size) {
        textSize.set(Math.max(SMALLEST_TEXT, Math.min(LARGEST_TEXT, size)));
    }

    /** Size of text against the usual, for what is painted. */
    public DoubleExpression lettersProperty() {
        return letters;
    }

    /**
     * A length that follows the size of text.
     *
     * @param usual the length with text of the usual size
     */
    public DoubleExpression sized(double usual) {
        return textSize.multiply(usual / USUAL_TEXT);
    }
}
