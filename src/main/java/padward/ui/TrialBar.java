package padward.ui;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import javafx.geometry.Insets;
import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import padward.breakout.Answer;
import padward.breakout.AnswerText;
import padward.clearance.Consequence;
import padward.clearance.Endpoint;
import padward.clearance.Removal;
import padward.clearance.Shift;
import padward.design.Edit;

/** A trial, before and after side by side, to be kept or dropped. */
final class TrialBar extends VBox {
    private final ExplorerModel model;
    private final Label edits = new Label();
    private final Label before = new Label();
    private final Label after = new Label();
    private final Label cost = new Label();

    TrialBar(ExplorerModel model, Actions actions) {
        this.model = model;
        setId("trial-bar");
        getStyleClass().add("trial-bar");
        setPadding(new Insets(8, 16, 8, 16));
        setSpacing(4);
        edits.setId("trial-edits");
        after.setId("trial-after");
        for (Label label : List.of(edits, before, after, cost)) {
            label.setWrapText(true);
            label.setMinHeight(Region.USE_PREF_SIZE);
        }
        edits.getStyleClass().add("side-title");
        before.setPrefWidth(330);
        after.setPrefWidth(330);
        Button keep = Controls.button(actions.get("keep"));
        Button drop = Controls.button(actions.get("drop"));
        Region spring = new Region();
        HBox.setHgrow(spring, Priority.ALWAYS);
        HBox sides = new HBox(24, before, after, spring, keep, drop);
        sides.setAlignment(Pos.CENTER_LEFT);
        getChildren().addAll(edits, sides, cost);
        model.trialProperty().addListener((p, old, now) -> show(now));
        show(Optional.empty());
    }

    private void show(Optional<QuestionModel.TriedOut> trial) {
        setVisible(trial.isPresent());
        setManaged(trial.isPresent());
        if (trial.isEmpty()) {
            return;
        }
        QuestionModel.TriedOut tried = trial.get();
        edits.setText(
                "Trial: "
                        + tried.edits().stream()
                                .map(Edit::toText)
                                .collect(Collectors.joining(", ")));
        before.setText("Without: " + side(tried.before()));
        after.setText("With it: " + side(tried.after()));
        cost.setText(cost(model.chosenOption().map(o -> o.clearance().removals())));
    }

    private static String side(Answer answer) {
        return AnswerText.word(answer)
                + QuestionModel.wayOf(answer)
                        .filter(w -> answer instanceof Answer.Open)
                        .map(w -> ", " + w.total().toText())
                        .orElse("");
    }

    private static String cost(Optional<List<Removal>> removals) {
        List<String> lost =
                removals.orElse(List.of()).stream()
                        .filter(r -> r.consequence() instanceof Consequence.Costly)
                        .flatMap(r -> ((Consequence.Costly) r.consequence()).lost().stream())
                        .map(Endpoint::toText)
                        .toList();
        List<String> moved =
                removals.orElse(List.of()).stream()
                        .filter(r -> r.consequence() instanceof Consequence.Movable)
                        .flatMap(r -> ((Consequence.Movable) r.consequence()).shifts().stream())
                        .map(TrialBar::shift)
                        .toList();
        String first = lost.isEmpty() ? "Nothing loses its signal" : "Lost: " + joined(lost);
        return first + (moved.isEmpty() ? "." : "; moved: " + joined(moved) + ".");
    }

    private static String shift(Shift shift) {
        return "net "
                + shift.net()
                + " ("
                + shift.after().toText()
                + ", before "
                + shift.before().toText()
                + ")";
    }

    private static String joined(List<String> names) {
        String few = names.stream().limit(4).collect(Collectors.joining(", "));
        return names.size() > 4 ? few + " and " + (names.size() - 4) + " more" : few;
    }
}
