package padward.ui.map;

import java.util.Optional;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.input.MouseButton;
import javafx.scene.input.MouseEvent;
import javafx.scene.input.ScrollEvent;
import javafx.scene.layout.Region;
import padward.breakout.ask.Obstacle;
import padward.fabric.Fabric;
import padward.ui.design.OpenDesign;
import padward.ui.design.TileLayout;
import padward.ui.draw.Viewport;
import padward.ui.model.WindowModel;
import padward.ui.paint.OverviewPainter;
import padward.ui.scene.MapLayer;
import padward.ui.scene.ObstaclePlaces;
import padward.ui.scene.ZoomScales;

/**
 * Handles the pointer on the map: describes what is under it, pins that or chooses the obstacle
 * there, pans, zooms, measures, and goes to places in the overview.
 */
final class MapPointer {
    /** A press and a release closer together than this are a click, pixels. */
    private static final double STILL = 4;

    /** How far from an obstacle's mark a click still chooses it, pixels. */
    private static final double MARK_REACH = 12;

    private static final double DOUBLE_CLICK = 3;

    /** What one notch of a wheel scrolls, pixels. */
    private static final double NOTCH = 40;

    /** Steps of one event, whatever the system makes of a notch. */
    private static final double MOST_STEPS = 1;

    private static final double BESIDE = 14;

    /** A rectangle smaller than this is not zoomed to, pixels. */
    private static final double LEAST_RECTANGLE = 8;

    private final MapModel map;
    private final WindowModel model;
    private final MapNavigation navigation;
    private final Label under = new Label();
    private final Region rectangle = new Region();
    private boolean overview;
    private boolean measuring;
    private double pressX;
    private double pressY;
    private double dragX;
    private double dragY;

    MapPointer(MapModel map, MapNavigation navigation) {
        this.map = map;
        this.model = map.explorer();
        this.navigation = navigation;
        under.setId("under-pointer");
        under.getStyleClass().add("under-pointer");
        under.setVisible(false);
        under.setMouseTransparent(true);
        rectangle.setId("zoom-rectangle");
        rectangle.getStyleClass().add("zoom-rectangle");
        rectangle.setVisible(false);
        rectangle.setManaged(false);
        rectangle.setMouseTransparent(true);
    }

    /** The rectangle that is being drawn to zoom to. */
    Region rectangle() {
        return rectangle;
    }

    /** Handles all pointer events of a node. */
    void listenOn(Node node) {
        node.setOnMouseMoved(e -> describeUnder(e.getX(), e.getY()));
        node.setOnMouseExited(
                e -> {
                    under.setVisible(false);
                    map.pointedProperty().set(Optional.empty());
                });
        node.setOnScroll(
                e -> {
                    scroll(e);
                    e.consume();
                });
        node.setOnZoom(
                e -> {
                    navigation.zoomBy(e.getX(), e.getY(), e.getZoomFactor());
                    e.consume();
                });
        node.setOnMousePressed(
                e -> {
                    node.requestFocus();
                    if (e.isPopupTrigger() || e.getButton() == MouseButton.SECONDARY) {
                        // Its press asks for a menu, and neither moves nor measures.
                        return;
                    }
                    press(e);
                });
        node.setOnMouseDragged(this::drag);
        node.setOnMouseReleased(this::release);
    }

    /**
     * A notch of a wheel is a step. A trackpad sends many small amounts, each of which counts for
     * as much as it is; what it moves sideways moves the map, as a wheel with Shift does.
     */
    private void scroll(ScrollEvent event) {
        double steps = event.getDeltaY() / NOTCH;
        navigation.zoomAt(
                event.getX(), event.getY(), Math.max(-MOST_STEPS, Math.min(MOST_STEPS, steps)));
        if (event.getDeltaX() != 0) {
            navigation.pan(event.getDeltaX(), 0);
        }
    }

    /** The label that describes what is under the pointer; hidden when there is nothing. */
    Label under() {
        return under;
    }

    private Viewport view() {
        return navigation.view();
    }

    private Optional<OpenDesign> opened() {
        return model.openedProperty().get();
    }

    /** What is at a point of the picture. */
    Optional<MapItem> at(double x, double y) {
        return opened().flatMap(
                        o ->
                                new MapHitTest(o)
                                        .find(view().worldX(x), view().worldY(y), view().scale()));
    }

    private void describeUnder(double x, double y) {
        Optional<MapItem> thing = at(x, y);
        under.setVisible(thing.isPresent());
        boolean inside = view().scale() >= ZoomScales.BOX;
        map.pointedProperty()
                .set(thing.map(MapItem::vertex).filter(v -> inside && v != Fabric.NOTHING));
        thing.ifPresent(
                t -> {
                    under.setText(t.line());
                    under.autosize();
                    // Next to the pointer, on the side where there is room.
                    double right = x + BESIDE;
                    boolean fits = right + under.getWidth() < view().width();
                    double left = fits ? right : Math.max(0, x - BESIDE - under.getWidth());
                    double below = y + BESIDE;
                    boolean high = below + under.getHeight() > view().height();
                    under.relocate(
                            Math.max(0, Math.min(left, view().width() - under.getWidth())),
                            high ? Math.max(0, y - BESIDE - under.getHeight()) : below);
                });
    }

    private void press(MouseEvent event) {
        if (event.getButton() == MouseButton.BACK) {
            navigation.back();
        } else if (event.getButton() == MouseButton.FORWARD) {
            navigation.forward();
        }
        rectangle.setVisible(event.isShiftDown() && event.getButton() == MouseButton.PRIMARY);
        Optional<TileLayout.Point> place =
                opened().filter(o -> map.options().shown(MapLayer.OVERVIEW).get())
                        .flatMap(
                                o ->
                                        OverviewPainter.placeAt(
                                                o, view(), event.getX(), event.getY()));
        overview = place.isPresent();
        measuring = !overview && isToMeasure(event);
        if (measuring) {
            map.measure().begin(place(event));
            return;
        }
        rectangle.resizeRelocate(event.getX(), event.getY(), 0, 0);
        place.ifPresent(navigation::centreOn);
        pressX = event.getX();
        pressY = event.getY();
        dragX = pressX;
        dragY = pressY;
    }

    private boolean isToMeasure(MouseEvent event) {
        return event.getButton() == MouseButton.PRIMARY
                && opened().isPresent()
                && !event.isShiftDown()
                && (event.isShortcutDown() || map.measure().onProperty().get());
    }

    private TileLayout.Point place(MouseEvent event) {
        return new TileLayout.Point(view().worldX(event.getX()), view().worldY(event.getY()));
    }

    private void drag(MouseEvent event) {
        if (event.getButton() == MouseButton.SECONDARY) {
            return;
        }
        if (measuring) {
            map.measure().extend(place(event));
            return;
        }
        if (rectangle.isVisible()) {
            rectangle.resizeRelocate(
                    Math.min(pressX, event.getX()),
                    Math.min(pressY, event.getY()),
                    Math.abs(event.getX() - pressX),
                    Math.abs(event.getY() - pressY));
            return;
        }
        navigation.pan(event.getX() - dragX, event.getY() - dragY);
        dragX = event.getX();
        dragY = event.getY();
    }

    private void release(MouseEvent event) {
        if (event.getButton() == MouseButton.SECONDARY) {
            return;
        }
        if (measuring) {
            measuring = false;
            map.measure().finish();
            return;
        }
        if (rectangle.isVisible()) {
            rectangle.setVisible(false);
            zoomToRectangle();
            return;
        }
        if (event.getButton() == MouseButton.PRIMARY && event.getClickCount() == 2 && !overview) {
            navigation.zoomAt(event.getX(), event.getY(), DOUBLE_CLICK);
            return;
        }
        boolean still = Math.hypot(event.getX() - pressX, event.getY() - pressY) < STILL;
        if (still && !overview && event.getButton() == MouseButton.PRIMARY) {
            pick(event.getX(), event.getY());
        }
    }

    private void zoomToRectangle() {
        double wide = rectangle.getWidth();
        double high = rectangle.getHeight();
        if (wide < LEAST_RECTANGLE || high < LEAST_RECTANGLE) {
            return;
        }
        double scale = view().scale() * Math.min(view().width() / wide, view().height() / high);
        navigation.goTo(
                view().worldX(rectangle.getLayoutX() + wide / 2),
                view().worldY(rectangle.getLayoutY() + high / 2),
                scale);
    }

    /**
     * Chooses the obstacle at a point of the picture, or pins what is there; an empty place unpins.
     */
    void pick(double x, double y) {
        Optional<Obstacle> obstacle = obstacleAt(x, y);
        if (obstacle.isPresent()) {
            map.choose(obstacle.get());
        } else {
            map.pinnedProperty().set(at(x, y));
        }
    }

    /** Chooses the obstacle in the middle, or pins what is there. */
    void pickMiddle() {
        pick(view().width() / 2, view().height() / 2);
    }

    private Optional<Obstacle> obstacleAt(double x, double y) {
        if (opened().isEmpty()
                || model.shown().route().isEmpty()
                || model.shown().whatIfProperty().get().isPresent()) {
            return Optional.empty();
        }
        return new ObstaclePlaces(opened().get(), model.shown().route().get(), view().scale())
                .near(
                        model.shown().obstacles(),
                        view().worldX(x),
                        view().worldY(y),
                        MARK_REACH / view().scale());
    }
}
