package padward.ui.group;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import javafx.beans.binding.Bindings;
import javafx.beans.property.BooleanProperty;
import javafx.beans.value.ObservableValue;
import javafx.collections.MapChangeListener;
import javafx.geometry.Insets;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.CheckBox;
import javafx.scene.control.ChoiceBox;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.Spinner;
import javafx.scene.control.TextField;
import javafx.scene.control.ToggleButton;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.util.StringConverter;
import padward.breakout.ask.Price;
import padward.breakout.group.Bus;
import padward.breakout.group.MatchedGroup;
import padward.breakout.text.PriceText;
import padward.ui.control.CautionLines;
import padward.ui.control.Choices;
import padward.ui.control.Controls;
import padward.ui.control.NumberSpinners;
import padward.ui.map.MapModel;
import padward.ui.model.AppearanceModel;
import padward.ui.scene.MapLayer;
import padward.ui.scene.MapOverlay;

/** Several nets at once: nets against pads, the routed group, and when each line arrives. */
public final class GroupView extends ScrollPane {
    private static final double MARGIN = 34;
    private static final double MOST_TABLE = 360;
    private static final double BAR = 12;

    private final GroupModel group;
    private final Label message = Controls.text("", "faint", "small");
    private final Label totals = Controls.text("");
    private final GroupMatrix matrix;
    private final SkewPicture skew;
    private final ScrollPane table;
    private final TextField filter = new TextField();
    private final CheckBox accept = new CheckBox();
    private final Label price = Controls.text("");
    private final VBox cautions = new VBox(2);
    private final Button match;
    private final Button keep;
    private final ToggleButton calibrate = new ToggleButton("Calibrate");

    /** Shows one group in the colours of the window, its routes also on the map. */
    public GroupView(GroupModel group, MapModel map, AppearanceModel look) {
        this.group = group;
        setId("group");
        ObservableValue<Boolean> seen =
                parentProperty().flatMap(Node::visibleProperty).orElse(false);
        getStyleClass().addAll("side-part", "plain-scroll");
        setFitToWidth(true);
        message.setId("group-message");
        totals.setId("group-totals");
        matrix = new GroupMatrix(group, look, message);
        skew = new SkewPicture(group, look);
        table = new ScrollPane(matrix);
        table.getStyleClass().add("plain-scroll");
        table.setMinHeight(Region.USE_PREF_SIZE);
        filter.setId("group-filter");
        filter.setPromptText("part of a net, pad, J1, bank A");
        filter.setAccessibleText("Shows only the nets and pads with these words");
        filter.textProperty()
                .addListener(
                        (p, old, now) -> {
                            matrix.filter(now);
                            show();
                        });
        match =
                Controls.button(
                        "group-match",
                        "Match",
                        "Lengthens short routes until all lines arrive within the tolerance",
                        group::match);
        keep =
                Controls.button(
                        "group-keep",
                        "Keep",
                        "Keeps the group as routed; it can be undone",
                        group::keep);
        calibrate.setId("group-calibrate");
        calibrate.setMinWidth(Region.USE_PREF_SIZE);
        calibrate.setTooltip(
                new Tooltip(
                        "Measures by how much the lines of these pads differ, with one net on all"
                                + " of them"));
        price.setId("group-price");
        cautions.setId("group-cautions");
        accept.setId("group-accept");
        accept.setWrapText(true);
        accept.selectedProperty().bindBidirectional(group.acceptedProperty());
        group.acceptedProperty().addListener((p, old, now) -> show());
        VBox all =
                new VBox(
                        8,
                        fields(),
                        buttons(),
                        calibration(),
                        totals,
                        price,
                        accept,
                        filter,
                        table,
                        message,
                        skew,
                        cautions);
        all.setPadding(new Insets(10, 12, 10, 12));
        setContent(all);
        group.busProperty().addListener((p, old, now) -> show());
        group.matchedProperty().addListener((p, old, now) -> show());
        group.matrixProperty().addListener((p, old, now) -> show());
        group.growing().addListener((p, old, now) -> show());
        group.asAskedProperty().addListener((p, old, now) -> show());
        group.leadMetresProperty().addListener((p, old, now) -> show());
        group.pinned().addListener((MapChangeListener<Integer, Integer>) c -> show());
        look.darkProperty().addListener((p, old, now) -> show());
        look.textSizeProperty().addListener((p, old, now) -> show());
        widthProperty().addListener((p, old, now) -> show());
        BooleanProperty together = map.options().shown(MapLayer.QUESTIONS);
        map.addPanelOverlay(
                Bindings.createObjectBinding(
                        () ->
                                group.busProperty()
                                        .get()
                                        .map(GroupPainter::new)
                                        .filter(b -> seen.getValue() || together.get())
                                        .<MapOverlay>map(b -> seen.getValue() ? b : b.lines()),
                        group.busProperty(),
                        together,
                        seen));
        show();
    }

    private Node fields() {
        TextField nets = new TextField();
        nets.setId("group-nets");
        nets.setPromptText("names or patterns, such as bus/data[*]");
        nets.textProperty().bindBidirectional(group.netsProperty());
        nets.setOnAction(e -> group.route());
        nets.setAccessibleText("Nets of the group");
        TextField pads = new TextField();
        pads.setId("group-pads");
        pads.setPromptText("header J1, bank A, names or patterns");
        pads.textProperty().bindBidirectional(group.padsProperty());
        pads.setOnAction(e -> group.route());
        pads.setAccessibleText("Pads that may be used");
        GridPane grid = new GridPane();
        grid.setHgap(8);
        grid.setVgap(6);
        grid.addRow(0, new Label("Nets"), nets);
        grid.addRow(1, new Label("Pads"), pads);
        GridPane.setHgrow(nets, Priority.ALWAYS);
        GridPane.setHgrow(pads, Priority.ALWAYS);
        return grid;
    }

    private Node buttons() {
        ChoiceBox<Bus.Aim> aim = Choices.box();
        aim.getItems().setAll(Bus.Aim.values());
        aim.setConverter(new AimNames());
        aim.valueProperty().bindBidirectional(group.aimProperty());
        aim.setId("group-aim");
        aim.setAccessibleText("Goal for the choice of pads");
        Spinner<Integer> tolerance =
                NumberSpinners.whole(0, 100_000, group.toleranceProperty().get(), 50);
        tolerance.getStyleClass().add("narrow");
        tolerance.setId("group-tolerance");
        tolerance.setAccessibleText("Tolerance in picoseconds");
        tolerance.valueProperty().addListener((p, old, now) -> group.toleranceProperty().set(now));
        CheckBox mayDisconnect = new CheckBox("may disconnect ports");
        mayDisconnect.setId("group-may-disconnect");
        mayDisconnect.setTooltip(
                new Tooltip(
                        "Also takes pads that ports have, where the others are not enough; those"
                                + " ports lose their pads"));
        mayDisconnect.selectedProperty().bindBidirectional(group.mayDisconnectProperty());
        Button route =
                Controls.button(
                        "group-route",
                        "Route",
                        "Chooses a pad for each net and routes all nets together",
                        group::route);
        Spinner<Double> lead =
                NumberSpinners.decimal(0, 100, group.leadMetresProperty().get(), 0.1);
        lead.getStyleClass().add("narrow");
        lead.setId("group-lead");
        lead.setAccessibleText("Length of the leads to the instrument, metres");
        lead.setTooltip(
                new Tooltip(
                        "Length of the leads to the instrument; kept with the group, so that the"
                                + " bench sheet calculates with the same"));
        NumberSpinners.bind(lead, group.leadMetresProperty());
        Label leadLabel = new Label("Lead, m");
        leadLabel.setLabelFor(lead);
        return new FlowPane(
                8,
                6,
                aim,
                mayDisconnect,
                route,
                together(match, tolerance, new Label("ps")),
                together(leadLabel, lead),
                keep,
                calibrate);
    }

    /** Controls that stay side by side where a row is too short for all. */
    private static Node together(Node... controls) {
        HBox box = new HBox(8, controls);
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    /** The steps of a calibration, shown while they are asked for. */
    private Node calibration() {
        CalibrationView steps = new CalibrationView(group.calibration());
        steps.visibleProperty().bind(calibrate.selectedProperty());
        steps.managedProperty().bind(calibrate.selectedProperty());
        return steps;
    }

    /** Texts of the aims. */
    private static final class AimNames extends StringConverter<Bus.Aim> {
        @Override
        public String toString(Bus.Aim aim) {
            if (aim == null) {
                return "";
            }
            return switch (aim) {
                case MOST -> "most nets";
                case SUM -> "smallest sum of delays";
                case WORST -> "smallest worst delay";
                case SKEW -> "smallest skew";
                case ORDER -> "nets in the order of the pads";
            };
        }

        @Override
        public Bus.Aim fromString(String text) {
            throw new UnsupportedOperationException("nothing is typed there");
        }
    }

    /** What it shows. */
    GroupModel group() {
        return group;
    }

    private void show() {
        boolean routed = group.busProperty().get().map(b -> !b.lines().isEmpty()).orElse(false);
        match.setDisable(!routed);
        keep.setDisable(!routed || !group.asAskedProperty().get() || !group.isAccepted());
        showPrice(routed);
        boolean priced = group.matrixProperty().get().isPresent();
        table.setVisible(priced);
        table.setManaged(priced);
        filter.setVisible(priced);
        filter.setManaged(priced);
        totals.setText(Controls.withUnits(totals()));
        totals.setTooltip(bottleneck().map(Tooltip::new).orElse(null));
        message.setText(
                !group.asAskedProperty().get()
                        ? "This is the group as it was routed. You have changed the fields: press"
                                + " Enter to route it again."
                        : group.growing().get()
                                ? "These routes can be used already. The table of all pairs"
                                        + " follows, and what would let one more net out where not"
                                        + " all fit."
                                : priced
                                        ? "● chosen, ◎ pinned; filled: open, orange: a port would"
                                                + " lose the pad, hatched: blocked. To pin a cell,"
                                                + " click it, or move to it with the arrow keys and"
                                                + " press Enter."
                                        : "");
        matrix.draw();
        if (!matrix.listed().isEmpty()) {
            message.setText("Listed: " + matrix.listed() + ". " + message.getText());
        }
        table.setPrefViewportHeight(Math.min(MOST_TABLE, matrix.getHeight()) + BAR);
        skew.draw(getWidth() - MARGIN);
    }

    /** What the group costs, what has to be accepted, and the cautions. */
    private void showPrice(boolean routed) {
        Price cost = group.price();
        price.setText(routed ? "What it costs: " + PriceText.sentences(cost) : "");
        price.setVisible(routed);
        price.setManaged(routed);
        boolean ask = routed && !cost.toAccept().isEmpty();
        accept.setText(PriceText.acceptance(cost));
        accept.setVisible(ask);
        accept.setManaged(ask);
        cautions.getChildren().setAll(routed ? CautionLines.ofShared(group.cautions()) : List.of());
    }

    /** How many are served, and whether more can be and why not, in one line. */
    private String served(Bus bus, int all) {
        String count = bus.lines().size() + " of " + all;
        if (bus.bound().isPresent()) {
            return bus.bound().get().toText();
        }
        if (bus.proof().isEmpty()) {
            return count + " served";
        }
        return count
                + bus.proof()
                        .flatMap(Bus.Proof::bottleneck)
                        .flatMap(
                                b ->
                                        group.matrixProperty()
                                                .get()
                                                .map(m -> b.inShort(m.design().fabric())))
                        .map(why -> " served; no more can be brought out together: " + why)
                        .orElse(" served, proven: none cheaper or faster");
    }

    /** Why no more can be served, and where; empty when all are, or that is not known. */
    private Optional<String> bottleneck() {
        return group.busProperty()
                .get()
                .flatMap(Bus::proof)
                .flatMap(Bus.Proof::bottleneck)
                .flatMap(b -> group.matrixProperty().get().map(m -> b.toText(m.design().fabric())));
    }

    private String totals() {
        Optional<Bus> bus = group.busProperty().get();
        if (bus.isEmpty()) {
            return "Type several nets and the pads that they may use, then press Enter.";
        }
        List<Bus.Skew> skews = group.skews();
        StringBuilder text = new StringBuilder();
        int all = bus.get().lines().size() + bus.get().left().size();
        group.matrixProperty()
                .get()
                .ifPresent(
                        m ->
                                text.append(m.nets().size())
                                        .append(m.nets().size() == 1 ? " net, " : " nets, ")
                                        .append(m.pads().size())
                                        .append(m.pads().size() == 1 ? " pad: " : " pads: "));
        text.append(served(bus.get(), all));
        bus.get()
                .proof()
                .flatMap(Bus.Proof::oneMore)
                .ifPresent(o -> text.append("\nProven: ").append(o.toText()).append('.'));
        text.append(
                String.format(
                        Locale.ROOT,
                        "\nSum of slow-corner delays %.3f ns",
                        bus.get().totalPs() / 1000.0));
        skews.stream()
                .findFirst()
                .map(Bus.Skew::skew)
                .ifPresent(
                        s ->
                                text.append(
                                        String.format(
                                                Locale.ROOT,
                                                "; greatest skew at the instrument %.3f ns: %.3f ns"
                                                        + " by the routes, ± %.3f ns local"
                                                        + " variation, ± %.3f ns package and"
                                                        + " board.",
                                                s.mostPs() / 1000.0,
                                                Math.max(s.fastPs(), s.slowPs()) / 1000.0,
                                                s.localPs() / 1000.0,
                                                s.outsidePs() / 1000.0)));
        Optional<MatchedGroup> matched = group.matchedProperty().get();
        matched.ifPresent(
                m ->
                        text.append(
                                String.format(
                                        Locale.ROOT,
                                        " By the routes: %.3f ns before matching (dashed),"
                                                + " %.3f ns now%s%s.",
                                        m.beforePs() / 1000.0,
                                        m.afterPs() / 1000.0,
                                        m.reached()
                                                ? ""
                                                : "; " + m.misses().size() + " not matched",
                                        m.isFinerThanKnown()
                                                ? "; the tolerance is finer than what is known"
                                                : "")));
        bus.get().notServed().forEach(t -> text.append("\nNot served: " + t + "."));
        return text.toString();
    }
}
