package padward.ui.model;

import java.util.List;
import javafx.beans.binding.DoubleBinding;
import javafx.beans.binding.DoubleExpression;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.IntegerProperty;
import javafx.beans.property.ReadOnlyIntegerProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleIntegerProperty;
import javafx.collections.FXCollections;
import javafx.collections.ObservableMap;

/** The look of the window. */
public final class AppearanceModel {
    /**
     * How the user left a column of a table.
     *
     * @param head its head, by which it is found again
     * @param width its width at the default text size, pixels
     * @param shown whether it is shown
     */
    public record Column(String head, double width, boolean shown) {}

    /** Default size of text, pixels. */
    public static final int DEFAULT_TEXT = 14;

    private static final int SMALLEST_TEXT = 10;
    private static final int LARGEST_TEXT = 26;

    private final BooleanProperty dark = new SimpleBooleanProperty(false);
    private final BooleanProperty lists = new SimpleBooleanProperty(true);
    private final BooleanProperty reasons = new SimpleBooleanProperty(false);
    private final IntegerProperty textSize = new SimpleIntegerProperty(DEFAULT_TEXT);
    private final ObservableMap<String, List<Column>> columns = FXCollections.observableHashMap();
    private final DoubleBinding letters = textSize.divide((double) DEFAULT_TEXT);

    /** Whether the dark theme is shown. */
    public BooleanProperty darkProperty() {
        return dark;
    }

    /** Whether the lists next to the map are shown. */
    public BooleanProperty listsProperty() {
        return lists;
    }

    /** How the user left the columns of tables, by the id of the table. */
    public ObservableMap<String, List<Column>> columns() {
        return columns;
    }

    /** Whether the reasons of an answer are shown under it. */
    public BooleanProperty reasonsProperty() {
        return reasons;
    }

    /** Size of text, pixels of a display that is not scaled. */
    public ReadOnlyIntegerProperty textSizeProperty() {
        return textSize;
    }

    /** Sets the size of text, limited to what is legible and fits. */
    public void setTextSize(int size) {
        textSize.set(Math.max(SMALLEST_TEXT, Math.min(LARGEST_TEXT, size)));
    }

    /** Size of text relative to the default, for painted text. */
    public DoubleExpression lettersProperty() {
        return letters;
    }

    /**
     * A length that follows the size of text.
     *
     * @param usual the length at the default text size
     */
    public DoubleExpression sized(double usual) {
        return textSize.multiply(usual / DEFAULT_TEXT);
    }
}
