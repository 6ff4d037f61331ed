package padward.ui.control;

import java.util.List;
import java.util.function.Consumer;
import java.util.function.UnaryOperator;
import javafx.application.Platform;
import javafx.geometry.Bounds;
import javafx.geometry.Pos;
import javafx.scene.control.ContentDisplay;
import javafx.scene.control.Label;
import javafx.scene.control.ListCell;
import javafx.scene.control.ListView;
import javafx.scene.control.TextField;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.stage.Popup;
import padward.ui.model.Suggestions;

/**
 * A text field that suggests names for its text, or for the word at the caret: Down and Up choose,
 * Enter accepts, Esc closes the list. Where more names fit than are seen at once, their number
 * stands below, and Down or the wheel shows them.
 */
public final class CompletingField extends TextField {
    /** Height of a row as a multiple of the text size. */
    private static final double ROW = 1.9;

    /** What a row needs beside its texts: its padding and a scroll bar, pixels. */
    private static final double REST = 36;

    private final Popup popup = new Popup();
    private final ListView<String> list = new ListView<>();
    private final Label more = new Label();
    private final VBox offers = new VBox(list, more);
    private final Finder finder;
    private final Words words;
    private UnaryOperator<String> remarks = name -> "";

    /** Width of the list relative to the size of its text, at least. */
    private double least = 19;

    private boolean choosing;

    /** Index of the uppermost name that the keys have left in view. */
    private int firstSeen;

    /** Whether the list was opened to choose from it, and not by typing. */
    private boolean choosesFirst;

    /** Number of the last search; what an earlier one finds comes too late. */
    private long searches;

    private String searched = "";

    /** Whether the names for that word are still awaited. */
    private boolean searching;

    /** Whether a change comes from a key: another design or question offers nothing by itself. */
    private boolean typing;

    /** Finds names for a word, at once or later, on the UI thread. */
    public interface Finder {
        /**
         * @param word what is typed
         * @param found gets the names; not called when another word came in between
         */
        void find(String word, Consumer<Suggestions> found);
    }

    /** Tells which characters belong to a word; words apart get names of their own. */
    public interface Words {
        /** Whether the character at a place of a text is part of a word. */
        boolean contain(String text, int at);
    }

    /** Suggests names for the whole text. */
    public CompletingField(Finder finder) {
        this(finder, (text, at) -> true);
    }

    /** Suggests names for the word at the caret. */
    public CompletingField(Finder finder, Words words) {
        this.finder = finder;
        this.words = words;
        list.getStyleClass().add("completions");
        list.setFocusTraversable(false);
        list.setCellFactory(l -> new Offer());
        list.setOnMouseClicked(e -> take());
        offers.getStyleClass().add("completion-list");
        more.getStyleClass().add("completions-more");
        more.setMaxWidth(Double.MAX_VALUE);
        popup.getContent().add(offers);
        popup.setAutoHide(true);
        textProperty()
                .addListener(
                        (p, old, now) -> {
                            if (typing) {
                                offer();
                            }
                        });
        // The caret follows the text a little later, and may then be behind the word.
        caretPositionProperty()
                .addListener(
                        (p, old, now) -> {
                            if (popup.isShowing() && !word().equals(searched)) {
                                close();
                            }
                        });
        focusedProperty()
                .addListener(
                        (p, old, now) -> {
                            if (!now) {
                                close();
                            }
                        });
        addEventFilter(KeyEvent.KEY_PRESSED, this::key);
        addEventFilter(
                KeyEvent.ANY,
                e -> {
                    typing = true;
                    Platform.runLater(() -> typing = false);
                });
    }

    /**
     * States what each offered name stands for, beside it.
     *
     * @param of a few words about a name, empty for none; asked on the UI thread for the names that
     *     are seen
     */
    public void setRemarks(UnaryOperator<String> of) {
        remarks = of;
        least = 27;
    }

    /** A name, and at the right what it stands for. */
    private final class Offer extends ListCell<String> {
        private final Label name = new Label();
        private final Label remark = new Label();
        private final Region between = new Region();

        Offer() {
            remark.getStyleClass().add("completions-remark");
            remark.setMinWidth(USE_PREF_SIZE);
            HBox.setHgrow(between, Priority.ALWAYS);
            HBox row = new HBox(8, name, between, remark);
            row.setAlignment(Pos.CENTER_LEFT);
            // The row is as wide as the list, and a long name gives room to what stands beside it.
            row.maxWidthProperty().bind(list.widthProperty().subtract(REST));
            row.setMinWidth(0);
            setPrefWidth(0);
            setContentDisplay(ContentDisplay.GRAPHIC_ONLY);
            setGraphic(row);
        }

        @Override
        protected void updateItem(String item, boolean empty) {
            super.updateItem(item, empty);
            boolean none = empty || item == null;
            name.setText(none ? "" : item);
            remark.setText(none ? "" : remarks.apply(item));
            setAccessibleText((name.getText() + " " + remark.getText()).strip());
        }
    }

    private void key(KeyEvent event) {
        switch (event.getCode()) {
            case DOWN -> move(1, event);
            case UP -> move(-1, event);
            case ESCAPE -> {
                if (popup.isShowing()) {
                    close();
                    event.consume();
                }
            }
            case ENTER -> {
                if (popup.isShowing() && list.getSelectionModel().getSelectedIndex() >= 0) {
                    take();
                    event.consume();
                } else {
                    close();
                }
            }
            default -> {}
        }
    }

    private void move(int by, KeyEvent event) {
        event.consume();
        if (!popup.isShowing()) {
            choosesFirst = true;
            if (!searching || !word().equals(searched)) {
                find(word());
            }
            return;
        }
        int last = list.getItems().size() - 1;
        int next = list.getSelectionModel().getSelectedIndex() + by;
        choose(Math.max(0, Math.min(last, next)));
    }

    private void choose(int index) {
        int first = firstSeen;
        if (index < first) {
            first = index;
        } else if (index >= first + Suggestions.AT_A_GLANCE) {
            first = index - Suggestions.AT_A_GLANCE + 1;
        }
        list.getSelectionModel().select(index);
        if (first != firstSeen) {
            firstSeen = first;
            list.scrollTo(first);
        }
    }

    private void take() {
        String chosen = list.getSelectionModel().getSelectedItem();
        if (chosen != null) {
            choosing = true;
            int from = wordStart();
            replaceText(from, wordEnd(), chosen);
            positionCaret(from + chosen.length());
            choosing = false;
        }
        close();
    }

    private int wordStart() {
        int at = Math.min(getCaretPosition(), getLength());
        while (at > 0 && words.contain(getText(), at - 1)) {
            at--;
        }
        return at;
    }

    private int wordEnd() {
        int at = Math.min(getCaretPosition(), getLength());
        while (at < getLength() && words.contain(getText(), at)) {
            at++;
        }
        return at;
    }

    /** The whole word at the caret, without blanks around it. */
    private String word() {
        return getText().substring(wordStart(), wordEnd()).strip();
    }

    /** Between two words nothing is offered unless somebody asks for it. */
    private void offer() {
        if (choosing || !isFocused()) {
            return;
        }
        choosesFirst = false;
        String word = word();
        if (word.isEmpty() && !getText().isEmpty()) {
            close();
            return;
        }
        find(word);
    }

    /** Shows what is found while the same word is at the caret and nobody has closed the list. */
    private void find(String word) {
        long search = ++searches;
        searched = word;
        searching = true;
        finder.find(
                word,
                found -> {
                    if (search == searches) {
                        searching = false;
                        if (word.equals(word())) {
                            show(found);
                        }
                    }
                });
    }

    private void close() {
        searches++;
        searching = false;
        popup.hide();
    }

    private void show(Suggestions found) {
        if (!isFocused() || getScene() == null) {
            return;
        }
        List<String> fitting = found.names();
        boolean complete = fitting.size() == 1 && fitting.get(0).equals(word());
        if (fitting.isEmpty() || complete) {
            popup.hide();
            return;
        }
        list.getItems().setAll(fitting);
        firstSeen = 0;
        list.scrollTo(0);
        more.setText(found.more());
        more.setVisible(!found.more().isEmpty());
        more.setManaged(!found.more().isEmpty());
        Themes.dressNow(offers, getScene().getRoot());
        list.setAccessibleText("Names that fit: " + fitting.size());
        list.getSelectionModel().clearSelection();
        if (choosesFirst) {
            list.getSelectionModel().select(0);
        }
        double row = Math.ceil(ROW * getFont().getSize());
        list.setFixedCellSize(row);
        list.setPrefSize(
                Math.max(getWidth(), least * getFont().getSize()),
                row * Math.min(Suggestions.AT_A_GLANCE, fitting.size()) + 4);
        Bounds at = localToScreen(getBoundsInLocal());
        if (at != null && !popup.isShowing()) {
            popup.show(this, at.getMinX(), at.getMaxY() + 2);
        }
    }
}
