package padward.ui.question;

import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import javafx.geometry.Insets;
import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.layout.ColumnConstraints;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import padward.breakout.Answer;
import padward.breakout.AnswerText;
import padward.breakout.Obstacle;
import padward.breakout.Way;
import padward.breakout.WhyBlocked;
import padward.breakout.WhyText;
import padward.clearance.Consequence;
import padward.clearance.Endpoint;
import padward.clearance.Removal;
import padward.clearance.Shift;
import padward.design.Edit;
import padward.ui.control.Actions;
import padward.ui.control.Controls;
import padward.ui.model.ExplorerModel;
import padward.ui.model.TriedOut;

/** A trial, before and after side by side, to be kept or dropped. */
public final class TrialBar extends VBox {
    private final ExplorerModel model;
    private final Label edits = new Label();
    private final Label before = new Label();
    private final Label after = new Label();
    private final Label beforeWay = new Label();
    private final Label afterWay = new Label();
    private final Label cost = new Label();

    /** Hidden until the question in front has a trial. */
    public TrialBar(ExplorerModel model, Actions actions) {
        this.model = model;
        setId("trial-bar");
        getStyleClass().add("trial-bar");
        setPadding(new Insets(8, 16, 8, 16));
        setSpacing(4);
        edits.setId("trial-edits");
        after.setId("trial-after");
        beforeWay.setId("trial-before-way");
        afterWay.setId("trial-after-way");
        for (Label label : List.of(edits, before, after, beforeWay, afterWay, cost)) {
            label.setWrapText(true);
            label.setMinHeight(Region.USE_PREF_SIZE);
        }
        edits.getStyleClass().add("side-title");
        beforeWay.getStyleClass().add("small");
        afterWay.getStyleClass().add("small");
        cost.getStyleClass().add("small");
        cost.setId("trial-cost");
        Button keep = Controls.button(actions.get("keep"));
        Button drop = Controls.button(actions.get("drop"));
        HBox.setHgrow(edits, Priority.ALWAYS);
        edits.setMaxWidth(Double.MAX_VALUE);
        HBox head = new HBox(8, edits, keep, drop);
        head.setAlignment(Pos.CENTER_LEFT);
        getChildren().addAll(head, sides());
        model.shown().trialProperty().addListener((p, old, now) -> show(now));
        show(model.shown().trialProperty().get());
    }

    /** Without the trial, with it, and what it costs, side by side in equal parts. */
    private GridPane sides() {
        VBox without = new VBox(2, before, beforeWay);
        VBox with = new VBox(2, after, afterWay);
        VBox costs = new VBox(2, new Label("What it costs"), cost);
        GridPane sides = new GridPane();
        sides.setHgap(16);
        sides.addRow(0, without, with, costs);
        List.of(without, with).forEach(s -> s.getStyleClass().add("trial-side"));
        for (int i = 0; i < 3; i++) {
            ColumnConstraints third = new ColumnConstraints();
            third.setPercentWidth(100 / 3.0);
            sides.getColumnConstraints().add(third);
        }
        return sides;
    }

    private void show(Optional<TriedOut> trial) {
        setVisible(trial.isPresent());
        setManaged(trial.isPresent());
        if (trial.isEmpty()) {
            return;
        }
        TriedOut tried = trial.get();
        edits.setText(
                "Trial: "
                        + tried.edits().stream()
                                .map(Edit::toText)
                                .collect(Collectors.joining(", ")));
        before.setText("Without: " + side(tried.before()));
        after.setText("With it: " + side(tried.after()));
        Optional<Way> old =
                model.shown()
                        .chosenOption()
                        .map(WhyBlocked.Option::way)
                        .or(() -> tried.before().findWay());
        Optional<Way> next = tried.after().findWay();
        beforeWay.setText(way(old) + inTheWay(model.shown().obstaclesOfChosen()));
        afterWay.setText(way(next) + inTheWay(obstacles(tried.after())) + compared(old, next));
        cost.setText(cost(model.shown().chosenOption().map(o -> o.clearance().removals())));
    }

    private static String way(Optional<Way> way) {
        return way.map(w -> w.hops().size() + " hops to the pad in " + w.toPadVertex().toText())
                .orElse("no way");
    }

    private static List<Obstacle> obstacles(Answer answer) {
        return answer instanceof Answer.Blocked blocked ? blocked.obstacles() : List.of();
    }

    private static String inTheWay(List<Obstacle> obstacles) {
        return obstacles.isEmpty()
                ? "; nothing in the way"
                : "; in the way: "
                        + joined(obstacles.stream().map(o -> WhyText.who(o.occupant())).toList());
    }

    /** How much of the way with the trial is not on the one without. */
    private static String compared(Optional<Way> old, Optional<Way> next) {
        if (old.isEmpty() || next.isEmpty()) {
            return "";
        }
        Set<Integer> known = new HashSet<>();
        old.get().hops().forEach(h -> known.add(h.vertex()));
        long other = next.get().hops().stream().filter(h -> !known.contains(h.vertex())).count();
        return other == 0 ? "; the same way" : "; " + other + " hops over other wires";
    }

    private static String side(Answer answer) {
        return AnswerText.word(answer)
                + answer.findWay()
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
