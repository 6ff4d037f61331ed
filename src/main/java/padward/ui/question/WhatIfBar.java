package padward.ui.question;

import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import javafx.geometry.Insets;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.CheckBox;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import padward.base.Listing;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Obstacle;
import padward.breakout.ask.Price;
import padward.breakout.ask.Route;
import padward.breakout.ask.WhyBlocked;
import padward.breakout.text.AnswerText;
import padward.breakout.text.PriceText;
import padward.breakout.text.WhyText;
import padward.change.Edit;
import padward.ui.control.Actions;
import padward.ui.control.Controls;
import padward.ui.control.Focus;
import padward.ui.model.PendingWhatIf;
import padward.ui.model.WindowModel;

/** A what-if: before and after, with buttons to keep or drop it. */
public final class WhatIfBar extends VBox {
    private final WindowModel model;
    private final Label edits = new Label();
    private final Label before = new Label();
    private final Label after = new Label();
    private final Label beforeRoute = new Label();
    private final Label afterRoute = new Label();
    private final Label cost = new Label();
    private final CheckBox accept = new CheckBox();
    private final Button keep;
    private final Button drop;

    /** Hidden until the shown question has a what-if. */
    public WhatIfBar(WindowModel model, Actions actions) {
        this.model = model;
        setId("what-if-bar");
        getStyleClass().add("what-if-bar");
        setPadding(new Insets(8, 12, 8, 12));
        setSpacing(4);
        edits.setId("what-if-edits");
        after.setId("what-if-after");
        beforeRoute.setId("what-if-before-route");
        afterRoute.setId("what-if-after-route");
        for (Label label : List.of(edits, before, after, beforeRoute, afterRoute, cost)) {
            label.setWrapText(true);
            label.setMinHeight(Region.USE_PREF_SIZE);
        }
        edits.getStyleClass().add("side-title");
        beforeRoute.getStyleClass().add("small");
        afterRoute.getStyleClass().add("small");
        cost.getStyleClass().add("small");
        cost.setId("what-if-cost");
        keep = Controls.button(actions.get("keep"));
        drop = Controls.button(actions.get("drop"));
        List.of(keep, drop, accept)
                .forEach(c -> Focus.handOver(c, "#try-button", "#bring-out-button"));
        HBox decide = new HBox(8, keep, drop);
        decide.setAlignment(Pos.CENTER_LEFT);
        accept.setId("what-if-accept");
        accept.setWrapText(true);
        accept.setMinHeight(Region.USE_PREF_SIZE);
        accept.getStyleClass().add("accept");
        accept.setOnAction(e -> model.shown().acceptedProperty().set(accept.isSelected()));
        model.shown().acceptedProperty().addListener((p, old, now) -> accept.setSelected(now));
        getChildren().addAll(edits, accept, decide, sides());
        model.shown().whatIfProperty().addListener((p, old, now) -> show(now));
        show(model.shown().whatIfProperty().get());
    }

    /** What the what-if costs, which small windows must not hide; without it, and with it. */
    private Node sides() {
        VBox sides =
                new VBox(
                        6,
                        new VBox(new Label("What it costs"), cost),
                        new VBox(before, beforeRoute),
                        new VBox(after, afterRoute));
        ScrollPane scroll = new ScrollPane(sides);
        scroll.setFitToWidth(true);
        scroll.setFocusTraversable(false);
        scroll.getStyleClass().add("plain-scroll");
        scroll.prefViewportHeightProperty().bind(sides.heightProperty().add(2));
        VBox.setVgrow(scroll, Priority.ALWAYS);
        return scroll;
    }

    private void show(Optional<PendingWhatIf> whatIf) {
        setVisible(whatIf.isPresent());
        setManaged(whatIf.isPresent());
        if (whatIf.isEmpty()) {
            return;
        }
        PendingWhatIf tried = whatIf.get();
        edits.setText(
                "What-if: "
                        + tried.edits().stream()
                                .map(Edit::toText)
                                .collect(Collectors.joining(", ")));
        before.setText(Controls.withUnits("Without: " + side(tried.before())));
        after.setText(Controls.withUnits("With it: " + side(tried.after())));
        Optional<Route> old =
                model.shown()
                        .chosenOption()
                        .map(WhyBlocked.Option::route)
                        .or(() -> tried.before().findRoute());
        Optional<Route> next = tried.after().findRoute();
        beforeRoute.setText(route(old) + obstacleText(model.shown().obstaclesOfChosen()));
        afterRoute.setText(
                route(next) + obstacleText(obstacles(tried.after())) + compared(old, next));
        cost.setText(
                PriceText.sentences(
                        Price.of(
                                tried.before().question(),
                                model.shown()
                                        .chosenOption()
                                        .map(o -> o.option().removals())
                                        .orElse(List.of()))));
        boolean ask = !tried.price().toAccept().isEmpty();
        accept.setText(PriceText.acceptance(tried.price()));
        accept.setVisible(ask);
        accept.setManaged(ask);
    }

    private static String route(Optional<Route> route) {
        return route.map(w -> w.hops().size() + " hops to the pad in " + w.toPadVertex().toText())
                .map(Controls::withUnits)
                .orElse("no route");
    }

    private static List<Obstacle> obstacles(Answer answer) {
        return answer instanceof Answer.Blocked blocked ? blocked.obstacles() : List.of();
    }

    private static String obstacleText(List<Obstacle> obstacles) {
        return obstacles.isEmpty()
                ? "; no obstacles"
                : "; obstacles: "
                        + joined(obstacles.stream().map(o -> WhyText.who(o.occupant())).toList());
    }

    /** How much of the new route differs from the old one. */
    private static String compared(Optional<Route> old, Optional<Route> next) {
        if (old.isEmpty() || next.isEmpty()) {
            return "";
        }
        Set<Integer> known = new HashSet<>();
        old.get().hops().forEach(h -> known.add(h.vertex()));
        long other = next.get().hops().stream().filter(h -> !known.contains(h.vertex())).count();
        return other == 0 ? "; the same route" : "; " + other + " hops on other wires";
    }

    private static String side(Answer answer) {
        return AnswerText.word(answer)
                + answer.findRoute()
                        .filter(w -> answer instanceof Answer.FreeRoute)
                        .map(w -> ", " + w.total().toText())
                        .orElse("");
    }

    private static String joined(List<String> names) {
        return Listing.first(names, 4);
    }
}
