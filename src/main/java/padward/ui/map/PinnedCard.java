package padward.ui.map;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import javafx.geometry.Insets;
import javafx.scene.Cursor;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.input.MouseEvent;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import padward.breakout.ask.DelayField;
import padward.fabric.Fabric;
import padward.ui.control.Controls;
import padward.ui.scene.NetReach;

/**
 * The card of the pinned thing: what it is, what uses it, what it drives, and what to do with it.
 */
final class PinnedCard extends VBox {
    private static final double WIDTH = 300;

    private final MapModel map;
    private double grabX;
    private double grabY;
    private final Label title = text("pin-title");
    private final Label state = text("pin-state");
    private final Label details = text("pin-details");
    private final Button bringOut = new Button("Bring out this net");
    private final Button takePad = new Button("Use this pad");
    private final Button close = new Button("Unpin");

    PinnedCard(MapModel map) {
        this.map = map;
        setId("pin-card");
        getStyleClass().add("pin-card");
        setSpacing(3);
        setPadding(new Insets(8, 10, 8, 10));
        setMaxSize(WIDTH, Region.USE_PREF_SIZE);
        setPrefWidth(WIDTH);
        title.getStyleClass().add("side-title");
        bringOut.setId("pin-bring-out");
        takePad.setId("pin-take-pad");
        close.setId("pin-close");
        bringOut.setOnAction(
                e ->
                        pinned().flatMap(MapItem::net)
                                .ifPresent(
                                        n ->
                                                map.explorer()
                                                        .shown()
                                                        .netTextProperty()
                                                        .set(n.name())));
        takePad.setOnAction(
                e ->
                        pinned().filter(p -> p.pad().isPresent())
                                .ifPresent(
                                        p ->
                                                map.explorer()
                                                        .shown()
                                                        .padTextProperty()
                                                        .set(p.name())));
        close.setOnAction(e -> map.pinnedProperty().set(Optional.empty()));
        FlowPane actions = new FlowPane(6, 4, bringOut, takePad, close);
        actions.setPadding(new Insets(4, 0, 0, 0));
        getChildren().addAll(title, state, details, actions);
        title.setCursor(Cursor.MOVE);
        setOnMousePressed(
                e -> {
                    grabX = e.getSceneX() - getTranslateX();
                    grabY = e.getSceneY() - getTranslateY();
                    e.consume();
                });
        setOnMouseDragged(
                e -> {
                    moveTo(e.getSceneX() - grabX, e.getSceneY() - grabY);
                    e.consume();
                });
        setOnMouseReleased(MouseEvent::consume);
        map.pinnedProperty().addListener((p, old, now) -> show());
        map.reachProperty().addListener((p, old, now) -> show());
        show();
    }

    /** Keeps it on a map that becomes smaller. */
    void stayOnMap() {
        moveTo(getTranslateX(), getTranslateY());
    }

    /** Moves it on the map, but never out of it. */
    private void moveTo(double x, double y) {
        Region on = (Region) getParent();
        setTranslateX(
                Math.max(-getLayoutX(), Math.min(on.getWidth() - getLayoutX() - getWidth(), x)));
        setTranslateY(
                Math.max(-getLayoutY(), Math.min(on.getHeight() - getLayoutY() - getHeight(), y)));
    }

    private static Label text(String id) {
        Label label = new Label();
        label.setId(id);
        label.setWrapText(true);
        label.setMinHeight(Region.USE_PREF_SIZE);
        return label;
    }

    private Optional<MapItem> pinned() {
        return map.pinnedProperty().get();
    }

    private void show() {
        setVisible(pinned().isPresent());
        setManaged(pinned().isPresent());
        pinned().ifPresent(this::show);
    }

    private void show(MapItem thing) {
        title.setText(thing.kind() + " " + thing.name());
        state.setText(Controls.withUnits(thing.state()));
        List<String> lines = new ArrayList<>(thing.details());
        map.reachProperty()
                .get()
                .map(NetReach::field)
                .flatMap(f -> delay(f, thing))
                .ifPresent(lines::add);
        details.setText(Controls.withUnits(String.join("\n", lines)));
        show(bringOut, thing.net().isPresent());
        show(takePad, thing.pad().isPresent());
        setAccessibleText(thing.line() + ". " + details.getText());
    }

    private static void show(Button button, boolean shown) {
        button.setVisible(shown);
        button.setManaged(shown);
    }

    private static Optional<String> delay(DelayField field, MapItem thing) {
        int ps =
                thing.vertex() == Fabric.NOTHING
                        ? field.arrivalPs(thing.tile())
                        : field.atPs(thing.vertex());
        String net = field.net().name();
        return Optional.of(
                ps == DelayField.NEVER
                        ? "No free route from " + net + " leads here."
                        : String.format(
                                Locale.ROOT,
                                "%.3f ns from %s at the %s corner.",
                                ps / 1000.0,
                                net,
                                field.corner().label()));
    }
}
