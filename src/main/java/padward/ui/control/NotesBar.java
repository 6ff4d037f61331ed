package padward.ui.control;

import javafx.collections.ListChangeListener;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.Tooltip;
import javafx.scene.input.Clipboard;
import javafx.scene.input.ClipboardContent;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import padward.ui.work.Note;
import padward.ui.work.Notes;

/** The notes, each shown until it is dismissed. */
public final class NotesBar extends VBox {
    private final Notes notes;

    /** Hidden while there are no notes. */
    public NotesBar(Notes notes) {
        this.notes = notes;
        setId("notes");
        notes.all().addListener((ListChangeListener<Note>) c -> show());
        show();
    }

    private void show() {
        getChildren().setAll(notes.all().stream().map(this::row).toList());
        setVisible(!notes.all().isEmpty());
        setManaged(isVisible());
    }

    private Node row(Note note) {
        Label text = new Label(note.text());
        text.setId("note");
        text.setWrapText(true);
        text.setMinHeight(Region.USE_PREF_SIZE);
        text.setMaxWidth(Double.MAX_VALUE);
        HBox.setHgrow(text, Priority.ALWAYS);
        HBox row = new HBox(10, text);
        row.getStyleClass().add("note");
        row.setAlignment(Pos.CENTER_LEFT);
        if (!note.detail().isEmpty()) {
            Button copy = button("Copy", () -> copy(note));
            copy.setTooltip(new Tooltip("Copies the message with its details"));
            row.getChildren().add(copy);
        }
        note.offer()
                .ifPresent(
                        o ->
                                row.getChildren()
                                        .add(
                                                button(
                                                        o.text(),
                                                        () -> {
                                                            notes.dismiss(note);
                                                            o.work().run();
                                                        })));
        row.getChildren().add(button("Dismiss", () -> notes.dismiss(note)));
        return row;
    }

    private static Button button(String text, Runnable work) {
        Button button = new Button(text);
        button.setMinWidth(Region.USE_PREF_SIZE);
        button.setOnAction(e -> work.run());
        return button;
    }

    private static void copy(Note note) {
        ClipboardContent content = new ClipboardContent();
        content.putString(note.text() + System.lineSeparator() + note.detail());
        Clipboard.getSystemClipboard().setContent(content);
    }
}
