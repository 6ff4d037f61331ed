package padward.ui.control;

import java.util.List;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.control.ListCell;
import javafx.scene.control.ListView;
import javafx.scene.control.TextField;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.StackPane;
import javafx.scene.layout.VBox;

/** A list of all actions over the window: type words, Down and Up choose, Enter runs one. */
public final class CommandSearch extends VBox {
    private static final double WIDTH = 620;
    private static final double HEIGHT = 380;

    private final Actions actions;
    private final TextField words = new TextField();
    private final ListView<Action> list = new ListView<>();
    private Node before;

    /** Hidden until it is opened. */
    public CommandSearch(Actions actions) {
        this.actions = actions;
        setId("command-search");
        getStyleClass().add("command-search");
        setMaxSize(WIDTH, HEIGHT);
        setSpacing(8);
        StackPane.setAlignment(this, Pos.TOP_CENTER);
        setVisible(false);
        words.setId("command-words");
        words.setPromptText("what do you want to do?");
        words.setAccessibleText("Words of the command; Down and Up choose, Enter runs it");
        words.textProperty().addListener((p, old, now) -> find());
        list.setId("command-list");
        list.setFocusTraversable(false);
        list.setCellFactory(l -> new ActionCell());
        list.setPlaceholder(new Label("No command matches."));
        list.setOnMouseClicked(e -> take());
        VBox.setVgrow(list, Priority.ALWAYS);
        addEventFilter(KeyEvent.KEY_PRESSED, this::key);
        words.focusedProperty()
                .addListener(
                        (p, old, now) -> {
                            if (!now) {
                                setVisible(false);
                            }
                        });
        getChildren().addAll(words, list);
    }

    /** Shows it, empty. */
    public void open() {
        before = getScene().getFocusOwner();
        words.clear();
        find();
        setVisible(true);
        words.requestFocus();
    }

    private void find() {
        list.getItems().setAll(CommandFinder.find(words.getText(), actions.all()));
        list.getSelectionModel().select(0);
        list.scrollTo(0);
    }

    private void key(KeyEvent event) {
        switch (event.getCode()) {
            case DOWN -> move(1);
            case UP -> move(-1);
            case ENTER -> take();
            case ESCAPE -> close();
            default -> {
                return;
            }
        }
        event.consume();
    }

    private void move(int by) {
        int last = list.getItems().size() - 1;
        int next = list.getSelectionModel().getSelectedIndex() + by;
        int chosen = Math.max(0, Math.min(last, next));
        list.getSelectionModel().select(chosen);
        list.scrollTo(Math.max(0, chosen - 4));
    }

    private void take() {
        Action chosen = list.getSelectionModel().getSelectedItem();
        if (chosen != null && chosen.possible().get()) {
            close();
            chosen.run();
        }
    }

    private void close() {
        setVisible(false);
        if (before != null) {
            before.requestFocus();
        }
    }

    private static final class ActionCell extends ListCell<Action> {
        private final Label name = new Label();
        private final Label purpose = new Label();
        private final Label key = new Label();
        private final HBox row;

        ActionCell() {
            name.setMinWidth(Region.USE_PREF_SIZE);
            key.setMinWidth(Region.USE_PREF_SIZE);
            purpose.getStyleClass().add("faint");
            purpose.setMaxWidth(Double.MAX_VALUE);
            HBox.setHgrow(purpose, Priority.ALWAYS);
            row = new HBox(12, name, purpose, key);
            row.setAlignment(Pos.CENTER_LEFT);
            row.setPrefWidth(0);
        }

        @Override
        protected void updateItem(Action action, boolean empty) {
            super.updateItem(action, empty);
            setText(null);
            if (empty || action == null) {
                setGraphic(null);
                return;
            }
            List<Label> all = List.of(name, purpose, key);
            all.forEach(l -> l.setDisable(!action.possible().get()));
            name.setText(action.group().title() + ": " + action.text());
            purpose.setText(action.purpose());
            key.setText(action.keyText());
            setAccessibleText(name.getText() + ". " + action.tip());
            setGraphic(row);
        }
    }
}
