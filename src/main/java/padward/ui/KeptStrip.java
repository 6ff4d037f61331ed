package padward.ui;

import java.io.File;
import java.util.List;
import java.util.Optional;
import javafx.geometry.Insets;
import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.stage.FileChooser;

/** The trials that are kept, the last one to be undone; hidden while there are none. */
final class KeptStrip extends HBox {
    private static final int SHOWN = 3;

    private final Label text = new Label();
    private final Button undo = new Button("Undo");
    private final Button redo = new Button("Redo");
    private final Button save = new Button("Save ledger…");

    KeptStrip(ExplorerModel model) {
        setId("kept-strip");
        getStyleClass().add("kept-strip");
        setSpacing(8);
        setPadding(new Insets(5, 16, 5, 16));
        setAlignment(Pos.CENTER_LEFT);
        text.setId("kept-text");
        HBox.setHgrow(text, Priority.ALWAYS);
        text.setMaxWidth(Double.MAX_VALUE);
        undo.setId("undo-button");
        undo.setOnAction(e -> model.undo());
        undo.setTooltip(new Tooltip("Takes the last kept trial back (Ctrl+Z)"));
        redo.setId("redo-button");
        redo.setOnAction(e -> model.redo());
        redo.setTooltip(new Tooltip("Keeps again what was undone (Ctrl+Shift+Z)"));
        undo.setMinWidth(Region.USE_PREF_SIZE);
        redo.setMinWidth(Region.USE_PREF_SIZE);
        save.setId("save-button");
        save.setOnAction(e -> askWhere(model));
        save.setTooltip(new Tooltip("Writes what is kept into a ledger's file (Ctrl+S)"));
        save.setMinWidth(Region.USE_PREF_SIZE);
        getChildren().addAll(text, undo, redo, save);
        model.deskProperty().addListener((p, old, now) -> show(now));
        show(Optional.empty());
    }

    private void askWhere(ExplorerModel model) {
        FileChooser chooser = new FileChooser();
        chooser.setTitle("Save what is kept as a ledger");
        chooser.setInitialFileName("ledger.json");
        File file = chooser.showSaveDialog(getScene().getWindow());
        if (file != null) {
            model.saveLedger(file.toPath());
        }
    }

    /** The button's work, for a key. */
    void save() {
        if (isVisible()) {
            save.fire();
        }
    }

    private void show(Optional<TrialDesk> desk) {
        boolean any = desk.map(d -> d.canUndo() || d.canRedo()).orElse(false);
        setVisible(any);
        setManaged(any);
        desk.ifPresent(
                d -> {
                    undo.setDisable(!d.canUndo());
                    redo.setDisable(!d.canRedo());
                    text.setText(told(d.kept()));
                });
    }

    private static String told(List<TrialDesk.Kept> kept) {
        if (kept.isEmpty()) {
            return "Nothing is kept: the design is as it was opened.";
        }
        StringBuilder result = new StringBuilder("Kept, the design's file is as it was: ");
        int from = Math.max(0, kept.size() - SHOWN);
        if (from > 0) {
            result.append(from).append(" more, ");
        }
        for (int i = from; i < kept.size(); i++) {
            result.append(i + 1).append(". ").append(kept.get(i).what());
            result.append(i < kept.size() - 1 ? "; " : "");
        }
        return result.toString();
    }
}
