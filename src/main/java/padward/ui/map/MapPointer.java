package padward.ui.map;

import java.util.Optional;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.input.MouseButton;
import javafx.scene.input.MouseEvent;
import padward.breakout.ask.Obstacle;
import padward.ui.design.OpenDesign;
import padward.ui.design.TileLayout;
import padward.ui.draw.Viewport;
import padward.ui.model.ExplorerModel;
import padward.ui.paint.OverviewPainter;
import padward.ui.scene.ObstaclePlaces;

/**
 * What the pointer does on the map: it tells what it is on, pins that or chooses the obstacle
 * there, pans, zooms, and goes where the overview says.
 */
final class MapPointer {
    /** A press and release nearer together than this are a click, pixels. */
    private static final double STILL = 4;

    /** How far from an obstacle's mark a click still means it, pixels. */
    private static final double MARK_REACH = 12;

    private static final double APART = 8;

    private final MapModel map;
    private final ExplorerModel model;
    private final MapNavigation travel;
    private final Label under = new Label();
    private boolean overview;
    private double pressX;
    private double pressY;
    private double dragX;
    private double dragY;

    MapPointer(MapModel map, MapNavigation travel) {
        this.map = map;
        this.model = map.explorer();
        this.travel = travel;
        under.setId("under-pointer");
        under.getStyleClass().add("under-pointer");
        under.setVisible(false);
        under.setMouseTransparent(true);
    }

    /** Hears of all that the pointer does on a node. */
    void listenOn(Node node) {
        node.setOnMouseMoved(e -> tellUnder(e.getX(), e.getY()));
        node.setOnMouseExited(e -> under.setVisible(false));
        node.setOnScroll(
                e -> {
                    travel.zoomAt(e.getX(), e.getY(), Math.signum(e.getDeltaY()));
                    e.consume();
                });
        node.setOnMousePressed(
                e -> {
                    node.requestFocus();
                    press(e);
                });
        node.setOnMouseDragged(this::drag);
        node.setOnMouseReleased(this::release);
    }

    /** What the pointer is on, in words; hidden while it is on nothing. */
    Label under() {
        return under;
    }

    private Viewport view() {
        return travel.view();
    }

    private Optional<OpenDesign> opened() {
        return model.openedProperty().get();
    }

    private Optional<Pointed> at(double x, double y) {
        return opened().flatMap(
                        o ->
                                new UnderPointer(o)
                                        .find(view().worldX(x), view().worldY(y), view().scale()));
    }

    private void tellUnder(double x, double y) {
        Optional<Pointed> thing = at(x, y);
        under.setVisible(thing.isPresent());
        thing.ifPresent(
                t -> {
                    under.setText(t.line());
                    under.autosize();
                    under.relocate(APART, Math.max(0, view().height() - under.getHeight() - APART));
                });
    }

    private void press(MouseEvent event) {
        Optional<TileLayout.Point> place =
                opened().flatMap(
                                o ->
                                        OverviewPainter.placeAt(
                                                o, view(), event.getX(), event.getY()));
        place.ifPresent(travel::centreOn);
        overview = place.isPresent();
        pressX = event.getX();
        pressY = event.getY();
        dragX = pressX;
        dragY = pressY;
    }

    private void drag(MouseEvent event) {
        travel.pan(event.getX() - dragX, event.getY() - dragY);
        dragX = event.getX();
        dragY = event.getY();
    }

    private void release(MouseEvent event) {
        boolean still = Math.hypot(event.getX() - pressX, event.getY() - pressY) < STILL;
        if (still && !overview && event.getButton() == MouseButton.PRIMARY) {
            pick(event.getX(), event.getY());
        }
    }

    /** Chooses the obstacle at a place of the picture, or pins what is there; nothing unpins. */
    private void pick(double x, double y) {
        Optional<Obstacle> obstacle = obstacleAt(x, y);
        if (obstacle.isPresent()) {
            map.choose(obstacle.get());
        } else {
            map.pinnedProperty().set(at(x, y));
        }
    }

    /** Pins what is in the middle, or chooses the obstacle there. */
    void pickMiddle() {
        pick(view().width() / 2, view().height() / 2);
    }

    private Optional<Obstacle> obstacleAt(double x, double y) {
        if (opened().isEmpty()
                || model.shown().route().isEmpty()
                || model.shown().whatIfProperty().get().isPresent()) {
            return Optional.empty();
        }
        return new ObstaclePlaces(opened().get(), model.shown().route().get())
                .near(
                        model.shown().obstacles(),
                        view().worldX(x),
                        view().worldY(y),
                        MARK_REACH / view().scale());
    }
}
