package padward.ui.control;

import java.util.List;
import java.util.function.Supplier;
import javafx.geometry.Bounds;
import javafx.scene.control.ListView;
import javafx.scene.control.TextField;
import javafx.scene.input.KeyEvent;
import javafx.stage.Popup;
import padward.ui.model.Suggestions;

/** A text field that suggests names: Down and Up choose, Enter accepts, Esc closes the list. */
public final class CompletingField extends TextField {
    /** Height of a row as a multiple of the text size. */
    private static final double ROW = 1.9;

    private final Popup popup = new Popup();
    private final ListView<String> list = new ListView<>();
    private final Supplier<List<String>> names;
    private final Supplier<List<String>> recent;
    private boolean choosing;

    /** Suggests some of these names, which are read again each time. */
    public CompletingField(Supplier<List<String>> names) {
        this(names, List::of);
    }

    /**
     * @param names all names
     * @param recent recently used names, the latest first; suggested before the others
     */
    public CompletingField(Supplier<List<String>> names, Supplier<List<String>> recent) {
        this.names = names;
        this.recent = recent;
        list.getStyleClass().add("completions");
        list.setFocusTraversable(false);
        list.setOnMouseClicked(e -> take());
        popup.getContent().add(list);
        popup.setAutoHide(true);
        textProperty().addListener((p, old, now) -> offer());
        focusedProperty()
                .addListener(
                        (p, old, now) -> {
                            if (!now) {
                                popup.hide();
                            }
                        });
        addEventFilter(KeyEvent.KEY_PRESSED, this::key);
    }

    private void key(KeyEvent event) {
        switch (event.getCode()) {
            case DOWN -> move(1, event);
            case UP -> move(-1, event);
            case ESCAPE -> {
                if (popup.isShowing()) {
                    popup.hide();
                    event.consume();
                }
            }
            case ENTER -> {
                if (popup.isShowing() && list.getSelectionModel().getSelectedIndex() >= 0) {
                    take();
                    event.consume();
                } else {
                    popup.hide();
                }
            }
            default -> {}
        }
    }

    private void move(int by, KeyEvent event) {
        if (!popup.isShowing()) {
            offer();
        }
        int last = list.getItems().size() - 1;
        int next = list.getSelectionModel().getSelectedIndex() + by;
        list.getSelectionModel().select(Math.max(0, Math.min(last, next)));
        event.consume();
    }

    private void take() {
        String chosen = list.getSelectionModel().getSelectedItem();
        if (chosen != null) {
            choosing = true;
            setText(chosen);
            positionCaret(chosen.length());
            choosing = false;
        }
        popup.hide();
    }

    private void offer() {
        if (choosing || !isFocused() || getScene() == null) {
            return;
        }
        List<String> fitting = Suggestions.of(getText(), names.get(), recent.get());
        boolean complete = fitting.size() == 1 && fitting.get(0).equals(getText());
        if (fitting.isEmpty() || complete) {
            popup.hide();
            return;
        }
        list.getItems().setAll(fitting);
        list.setStyle(getScene().getRoot().getStyle());
        list.getSelectionModel().clearSelection();
        double row = Math.ceil(ROW * getFont().getSize());
        list.setFixedCellSize(row);
        list.setPrefSize(Math.max(getWidth(), 260), row * fitting.size() + 4);
        list.getStylesheets().setAll(getScene().getRoot().getStylesheets());
        Bounds at = localToScreen(getBoundsInLocal());
        if (at != null && !popup.isShowing()) {
            popup.show(this, at.getMinX(), at.getMaxY() + 2);
        }
    }
}
