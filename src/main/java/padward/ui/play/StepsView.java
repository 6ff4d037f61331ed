package padward.ui.play;

import java.util.List;
import java.util.Optional;
import javafx.beans.binding.Bindings;
import javafx.geometry.Insets;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.ChoiceBox;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.Slider;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.VBox;
import padward.base.Counts;
import padward.ui.control.Choices;
import padward.ui.control.Controls;
import padward.ui.model.WindowModel;

/** The panel that plays the searches of the question, on the map and side by side. */
public final class StepsView extends ScrollPane {
    /** Wide enough for the longest choice at the usual text size, pixels. */
    private static final double CHOICE_WIDTH = 440;

    /** Padding left and right, and the scroll bar, pixels. */
    private static final double BESIDE = 44;

    private final StepsModel steps;
    private final WindowModel model;
    private final ChoiceBox<String> part = Choices.box();
    private final Slider place = new Slider(0, 1, 0);
    private final Label count = label("steps-count");
    private final Label stepText = label("steps-text");
    private final Label empty = label("steps-empty");
    private final Label legend = label("steps-legend");
    private final Button play = new Button();
    private final Button occupied =
            button(
                    "occupied",
                    "First occupied site",
                    "Goes to the first occupied site that the search touches",
                    () -> {});
    private final Button fine =
            button("fine", "next edge", "Goes forward by the smallest step", () -> {});
    private final SearchComparison sides;
    private final GroupFields group;
    private final VBox body;
    private final PlayClock clock;
    private boolean following;

    /** Builds the controls. */
    public StepsView(WindowModel model, StepsModel steps) {
        this.model = model;
        this.steps = steps;
        this.clock = new PlayClock(steps::tick);
        this.sides = new SearchComparison(model, steps);
        this.group = new GroupFields(steps);
        setId("steps");
        setFitToWidth(true);
        getStyleClass().add("plain-scroll");
        occupied.setOnAction(e -> steps.toFirstOccupiedSite());
        fine.setOnAction(e -> steps.stepFinely());
        part.setId("steps-part");
        asWideAsFits(part);
        Tooltip whole = new Tooltip();
        whole.textProperty().bind(part.valueProperty());
        part.tooltipProperty()
                .bind(
                        Bindings.when(part.valueProperty().isNull())
                                .then((Tooltip) null)
                                .otherwise(whole));
        part.setAccessibleText("Which search of the question");
        part.getSelectionModel()
                .selectedIndexProperty()
                .addListener(
                        (p, old, now) -> {
                            if (!following && now.intValue() >= 0) {
                                steps.partProperty().set(now.intValue());
                            }
                        });
        place.setId("steps-place");
        place.setAccessibleText("Position in the recording");
        place.valueProperty()
                .addListener(
                        (p, old, now) -> {
                            if (!following) {
                                steps.goTo((int) Math.round(now.doubleValue()));
                            }
                        });
        stepText.setMinHeight(34);
        legend.getStyleClass().addAll("faint", "small");
        body = new VBox(8, buttons(), place, count, stepText, sides, legend);
        VBox all = new VBox(8, choices(), group, empty, body);
        all.setPadding(new Insets(10, 12, 10, 12));
        setContent(all);
        steps.momentProperty().addListener((p, old, now) -> refresh());
        steps.recordings().searchesProperty().addListener((p, old, now) -> refill());
        steps.recordings().roundsProperty().addListener((p, old, now) -> refresh());
        steps.kindProperty().addListener((p, old, now) -> refresh());
        steps.partProperty().addListener((p, old, now) -> refill());
        steps.playingProperty().addListener((p, old, now) -> playing(now));
        steps.speedProperty().addListener((p, old, now) -> playing(steps.playingProperty().get()));
        model.look().darkProperty().addListener((p, old, now) -> refresh());
        steps.recordings()
                .wantedProperty()
                .bind(parentProperty().flatMap(Node::visibleProperty).orElse(false));
        refill();
    }

    private static Label label(String id) {
        Label label = Controls.text("");
        label.setId(id);
        return label;
    }

    /** Many buttons show only a sign, so screen readers read the purpose instead. */
    static Button button(String id, String text, String purpose, Runnable work) {
        Button button = Controls.button("steps-" + id, text, purpose, work);
        button.setAccessibleText(purpose);
        button.setAccessibleHelp("");
        return button;
    }

    private Node choices() {
        ChoiceBox<PlayKind> kind = Choices.box();
        kind.setId("steps-kind");
        asWideAsFits(kind);
        kind.getItems().setAll(PlayKind.values());
        kind.setAccessibleText("What is played on the map");
        kind.valueProperty().bindBidirectional(steps.kindProperty());
        FlowPane row = new FlowPane(8, 6, kind, part);
        return row;
    }

    private void asWideAsFits(ChoiceBox<?> choices) {
        choices.prefWidthProperty()
                .bind(
                        Bindings.min(
                                model.look().sized(CHOICE_WIDTH),
                                widthProperty().subtract(BESIDE)));
    }

    private Node buttons() {
        play.setId("steps-play");
        play.setOnAction(e -> steps.playOrPause());
        play.setMinWidth(74);
        Slider speed = new Slider(1, StepsModel.MAX_SPEED, steps.speedProperty().get());
        speed.setId("steps-speed");
        speed.setAccessibleText("Steps per second");
        speed.setTooltip(
                new Tooltip(
                        "Playing speed: 1 to 60 steps per second; a large search takes several at a time"));
        speed.setPrefWidth(90);
        speed.valueProperty().bindBidirectional(steps.speedProperty());
        FlowPane row =
                new FlowPane(
                        6,
                        6,
                        button("start", "|◀", "Goes back to the start", steps::toStart),
                        button("back", "◀", "Goes back by one step", steps::back),
                        play,
                        button(
                                "next",
                                "▶",
                                "Goes forward by one step: one settled vertex, one expanded label, or one round",
                                steps::step),
                        fine,
                        button("end", "▶|", "Goes to the end", steps::toEnd),
                        occupied,
                        new HBox(4, new Label("speed"), speed));
        ((HBox) row.getChildren().get(row.getChildren().size() - 1)).setAlignment(Pos.CENTER_LEFT);
        return row;
    }

    private static String legend(PlayKind kind) {
        return switch (kind) {
            case LABELS ->
                    "On the map: the number of obstacles to remove to get to each vertex; solid where"
                            + " it is none, else dashed. Zoom in to see which.";
            case ROUNDS ->
                    "On the map: each net in its own line style; for a shared vertex, how many nets"
                            + " want it, and its price (b + h) × p: delay b, history cost h, factor p for"
                            + " sharing.";
            default ->
                    "On the map: settled wires solid, the frontier dashed with rings, wires that may"
                            + " not be entered crossed, and on top the route to the vertex of the last"
                            + " step. Zoom in to see cost so far + estimate of each wire, ns.";
        };
    }

    private void refill() {
        following = true;
        List<String> parts =
                steps.recordings()
                        .searchesProperty()
                        .get()
                        .map(PlayedSearches::parts)
                        .orElse(List.of());
        if (!part.getItems().equals(parts)) {
            part.getItems().setAll(parts);
        }
        if (!parts.isEmpty()) {
            part.getSelectionModel().select(Math.min(parts.size() - 1, steps.partProperty().get()));
        }
        following = false;
        refresh();
    }

    private void refresh() {
        Optional<StepPlayer> player = steps.player();
        PlayKind kind = steps.kindProperty().get();
        boolean isSearch = kind.method().isPresent();
        shown(part, isSearch && part.getItems().size() > 1);
        shown(group, kind == PlayKind.ROUNDS);
        shown(sides, isSearch);
        shown(occupied, isSearch);
        shown(fine, kind != PlayKind.ROUNDS);
        fine.setText(kind == PlayKind.LABELS ? "next label" : "next edge");
        legend.setText(legend(kind));
        shown(body, player.isPresent());
        shown(empty, player.isEmpty());
        empty.setText(whyEmpty(kind));
        following = true;
        player.ifPresent(
                p -> {
                    place.setMax(Math.max(1, p.size()));
                    place.setValue(p.done());
                    count.setText(
                            Counts.text(p.done()) + " of " + Counts.text(p.size()) + " steps");
                    stepText.setText(p.text());
                });
        following = false;
        occupied.setDisable(isSearch && steps.firstOccupiedSite().isEmpty());
        playing(steps.playingProperty().get());
        sides.refresh();
    }

    private String whyEmpty(PlayKind kind) {
        if (model.openedProperty().get().isEmpty()) {
            return "Open a design first (Ctrl+O).";
        }
        if (kind == PlayKind.ROUNDS) {
            return "Enter nets and pads, then press Route together.";
        }
        if (model.shown().answerProperty().get().isEmpty()) {
            return "Ask a question, and its searches are played here step by step.";
        }
        return kind == PlayKind.LABELS
                ? "Only a blocked pad has obstacles to count. Ask for a pad that is blocked."
                : "This question was answered without a search, or is still being recorded.";
    }

    private static void shown(Node node, boolean on) {
        node.setVisible(on);
        node.setManaged(on);
    }

    private void playing(boolean on) {
        play.setText(on ? "Pause" : "Play");
        clock.run(on, steps.speedProperty().get());
    }
}
