package padward.ui.ledger;

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
import padward.change.LedgerEntry;
import padward.ui.control.Actions;
import padward.ui.control.Controls;
import padward.ui.control.WorkBar;
import padward.ui.model.KeptChanges;
import padward.ui.model.WindowModel;

/**
 * The status line: what is kept, each with its undo, what was done last, and what is being done.
 */
public final class KeptChangesBar extends HBox {
    private static final int SHOWN = 3;
    private static final double TIP_WIDTH = 560;

    private final Label text = new Label();
    private final HBox undos = new HBox(4);
    private final LedgerModel ledger;

    /** Follows the kept changes of the open design. */
    public KeptChangesBar(WindowModel model, LedgerModel ledger, Actions actions) {
        this.ledger = ledger;
        setId("kept-strip");
        getStyleClass().add("kept-strip");
        setSpacing(8);
        setPadding(new Insets(5, 16, 5, 16));
        setAlignment(Pos.CENTER_LEFT);
        text.setId("kept-text");
        Tooltip all = new Tooltip();
        all.setWrapText(true);
        all.setMaxWidth(TIP_WIDTH);
        all.textProperty().bind(text.textProperty());
        text.setTooltip(all);
        HBox.setHgrow(text, Priority.ALWAYS);
        text.setMaxWidth(Double.MAX_VALUE);
        Label done = new Label();
        done.setId("status");
        done.getStyleClass().add("faint");
        done.setMinWidth(0);
        done.textProperty().bind(model.notes().statusProperty());
        Tooltip allDone = new Tooltip();
        allDone.textProperty().bind(done.textProperty());
        done.setTooltip(allDone);
        getChildren()
                .addAll(
                        text,
                        done,
                        new WorkBar(model.jobs(), actions.get("stop")),
                        undos,
                        Controls.button(actions.get("undo")),
                        Controls.button(actions.get("redo")),
                        Controls.button(actions.get("save")),
                        Controls.button(actions.get("show-kept")));
        model.keptProperty().addListener((p, old, now) -> show(model));
        model.history().nextRedoProperty().addListener((p, old, now) -> show(model));
        show(model);
    }

    private void show(WindowModel model) {
        Optional<KeptChanges> changes = model.keptProperty().get();
        List<LedgerEntry> kept = changes.map(KeptChanges::entries).orElse(List.of());
        text.setText(changes.isPresent() ? summary(kept) : "No design is open.");
        undos.getChildren().clear();
        for (int i = Math.max(0, kept.size() - SHOWN); i < kept.size(); i++) {
            undos.getChildren().add(undo(i, kept.get(i)));
        }
    }

    private Button undo(int index, LedgerEntry kept) {
        Button button = new Button("↶ " + (index + 1));
        button.setId("undo-kept-" + (index + 1));
        button.setAccessibleText("Undo entry " + (index + 1) + ", " + kept.what());
        button.setTooltip(
                new Tooltip(
                        "Undoes entry "
                                + (index + 1)
                                + ", "
                                + kept.what()
                                + "; entries that depend on it are listed first"));
        button.setMinWidth(Region.USE_PREF_SIZE);
        button.setOnAction(e -> ledger.undo(index));
        return button;
    }

    private static String summary(List<LedgerEntry> kept) {
        if (kept.isEmpty()) {
            return "Nothing is kept: the design is as it was opened.";
        }
        StringBuilder result = new StringBuilder("Kept (the design file is unchanged): ");
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
