package padward.ui;

import java.util.List;
import javafx.geometry.Insets;
import javafx.geometry.Pos;
import javafx.scene.control.Label;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;

/** The trials that are kept, the last one to be undone; hidden while there are none. */
final class KeptStrip extends HBox {
    private static final int SHOWN = 3;

    private final Label text = new Label();

    KeptStrip(ExplorerModel model, Actions actions) {
        setId("kept-strip");
        getStyleClass().add("kept-strip");
        setSpacing(8);
        setPadding(new Insets(5, 16, 5, 16));
        setAlignment(Pos.CENTER_LEFT);
        text.setId("kept-text");
        HBox.setHgrow(text, Priority.ALWAYS);
        text.setMaxWidth(Double.MAX_VALUE);
        getChildren()
                .addAll(
                        text,
                        Controls.button(actions.get("undo")),
                        Controls.button(actions.get("redo")),
                        Controls.button(actions.get("save")));
        model.deskProperty().addListener((p, old, now) -> show(model));
        model.history().nextRedoProperty().addListener((p, old, now) -> show(model));
        show(model);
    }

    private void show(ExplorerModel model) {
        List<TrialDesk.Kept> kept =
                model.deskProperty().get().map(TrialDesk::kept).orElse(List.of());
        boolean any = !kept.isEmpty() || model.history().nextRedoProperty().get().isPresent();
        setVisible(any);
        setManaged(any);
        text.setText(told(kept));
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
