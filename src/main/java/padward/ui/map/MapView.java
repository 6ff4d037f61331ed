package padward.ui.map;

import java.util.Optional;
import javafx.animation.AnimationTimer;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.scene.canvas.Canvas;
import javafx.scene.canvas.GraphicsContext;
import javafx.scene.control.Label;
import javafx.scene.input.KeyEvent;
import javafx.scene.input.MouseButton;
import javafx.scene.input.MouseEvent;
import javafx.scene.layout.Pane;
import javafx.scene.text.Font;
import javafx.scene.text.TextAlignment;
import padward.breakout.Hop;
import padward.breakout.Obstacle;
import padward.ui.control.Action;
import padward.ui.control.Actions;
import padward.ui.draw.Palette;
import padward.ui.draw.Viewport;
import padward.ui.model.ExplorerModel;
import padward.ui.paint.OverviewPainter;
import padward.ui.scene.Extent;
import padward.ui.scene.MapScene;
import padward.ui.scene.ObstaclePlaces;
import padward.ui.scene.Opened;
import padward.ui.scene.Scales;
import padward.ui.scene.TileLayout;

/**
 * The fabric map: a canvas as large as its place on the screen, never as the fabric. It is redrawn
 * at most once a frame, when something has changed.
 */
public final class MapView extends Pane {
    private static final double STEP = 60;
    private static final double ZOOM = 1.25;

    /** Scale beyond which showing something whole does not go, pixels a tile. */
    static final double NEAREST_FIT = 260;

    private static final double TILE_FIT = 520;
    private static final double STILL = 4;
    private static final double MARK_REACH = 12;
    private static final double APART = 8;

    private final MapModel map;
    private final ExplorerModel model;
    private final Canvas canvas = new Canvas();
    private final ObjectProperty<Palette> palette = new SimpleObjectProperty<>(Palette.LIGHT);
    private final Journey journey = new Journey();
    private final MapCanvas picture;
    private final Extents extents;
    private final Label under = new Label();
    private final PinCard card;
    private final LayersButton layers;
    private Actions actions = new Actions();
    private boolean dirty = true;

    /** What is shown whole, until one moves: it is fitted again when the map's size changes. */
    private Optional<Extent> whole = Optional.empty();

    private boolean overview;
    private double pressX;
    private double pressY;
    private double dragX;
    private double dragY;

    /** A map that is empty until a design is open. */
    public MapView(MapModel map) {
        this.map = map;
        this.model = map.explorer();
        this.picture = new MapCanvas(map);
        this.extents = new Extents(map);
        this.card = new PinCard(map);
        this.layers = new LayersButton(map.options());
        setId("map");
        setFocusTraversable(true);
        setAccessibleText(
                "Fabric map. Arrows move, plus and minus zoom, 0 shows all, W the way, N the net,"
                        + " T the tile in the middle, Enter pins what is in the middle.");
        getStyleClass().add("map");
        setMinSize(120, 120);
        under.setId("under-pointer");
        under.getStyleClass().add("under-pointer");
        under.setVisible(false);
        under.setMouseTransparent(true);
        getChildren().addAll(canvas, under, card, layers);
        model.openedProperty().addListener((p, old, now) -> show(old, now));
        model.shown().answerProperty().addListener((p, old, now) -> fitWay());
        model.shown().selectedHopProperty().addListener((p, old, now) -> flyToHop());
        map.addListener(this::repaint);
        map.pinnedProperty().addListener((p, old, now) -> requestLayout());
        palette.addListener((p, old, now) -> repaint());
        focusedProperty().addListener((p, old, now) -> repaint());
        handleInput();
        fitAll();
        new AnimationTimer() {
            @Override
            public void handle(long now) {
                if (dirty) {
                    dirty = false;
                    paint();
                }
            }
        }.start();
    }

    private void handleInput() {
        setOnMouseMoved(e -> tellUnder(e.getX(), e.getY()));
        setOnMouseExited(e -> under.setVisible(false));
        setOnScroll(
                e -> {
                    double factor = Math.pow(ZOOM, Math.signum(e.getDeltaY()));
                    look(viewport().zoomedAt(e.getX(), e.getY(), factor));
                    e.consume();
                });
        setOnMousePressed(this::press);
        setOnMouseDragged(this::drag);
        setOnMouseReleased(this::release);
        setOnKeyPressed(this::key);
    }

    private void repaint() {
        dirty = true;
    }

    /** Another fabric is shown from the start; another state of the same one where one was. */
    private void show(Optional<Opened> old, Optional<Opened> now) {
        boolean sameFabric =
                now.isPresent()
                        && old.isPresent()
                        && now.get().design().fabric() == old.get().design().fabric();
        if (!sameFabric) {
            journey.forget();
            fitAll();
        }
    }

    /** The colours that it is painted in. */
    public ObjectProperty<Palette> paletteProperty() {
        return palette;
    }

    /** The part of the fabric that is seen now; on the way to another, where it is just then. */
    public Viewport viewport() {
        return journey.view();
    }

    private Optional<Opened> opened() {
        return model.openedProperty().get();
    }

    private void look(Viewport next) {
        journey.look(next);
        moved();
    }

    private void jump(Viewport next) {
        journey.jump(next);
        moved();
    }

    private void showWhole(Extent extent) {
        Viewport next = extent.in(viewport(), NEAREST_FIT);
        if (viewport().width() < 2) {
            // Not laid out yet: no place to come back to.
            look(next);
        } else {
            jump(next);
        }
        whole = Optional.of(extent);
    }

    private void moved() {
        whole = Optional.empty();
        dirty = true;
        under.setVisible(false);
    }

    /** Back to the place before the last jump. */
    void back() {
        journey.back();
        moved();
    }

    /** Forward again. */
    void forward() {
        journey.forward();
        moved();
    }

    /** Goes to a place, at a scale of so many pixels a tile. */
    public void goTo(double x, double y, double scale) {
        jump(viewport().centredOn(x, y).atScale(scale));
    }

    /** Flies to a vertex, and marks it. */
    void flyTo(int vertex) {
        if (opened().isPresent()) {
            map.foundProperty().set(Optional.of(vertex));
            fly(opened().get().layout().end(vertex));
        }
    }

    private void fly(TileLayout.Point at) {
        double scale = Math.max(viewport().scale(), Scales.NAMES + 10);
        jump(viewport().centredOn(at.x(), at.y()).atScale(scale));
    }

    private void flyToHop() {
        Optional<Hop> hop =
                model.shown()
                        .selectedHopProperty()
                        .get()
                        .flatMap(
                                i ->
                                        model.shown()
                                                .way()
                                                .filter(w -> i < w.hops().size())
                                                .map(w -> w.hops().get(i)));
        hop.ifPresent(h -> fly(opened().orElseThrow().layout().end(h.vertex())));
    }

    private Optional<Pointed> at(double x, double y) {
        return opened().flatMap(
                        o ->
                                new UnderPointer(o)
                                        .find(
                                                viewport().worldX(x),
                                                viewport().worldY(y),
                                                viewport().scale()));
    }

    private void tellUnder(double x, double y) {
        Optional<Pointed> thing = at(x, y);
        under.setVisible(thing.isPresent());
        thing.ifPresent(
                t -> {
                    under.setText(t.line());
                    under.autosize();
                    under.relocate(
                            APART, Math.max(0, viewport().height() - under.getHeight() - APART));
                });
    }

    private void press(MouseEvent event) {
        requestFocus();
        Optional<TileLayout.Point> place =
                opened().flatMap(
                                o ->
                                        OverviewPainter.placeAt(
                                                o, viewport(), event.getX(), event.getY()));
        place.ifPresent(p -> jump(viewport().centredOn(p.x(), p.y())));
        overview = place.isPresent();
        pressX = event.getX();
        pressY = event.getY();
        dragX = pressX;
        dragY = pressY;
    }

    private void drag(MouseEvent event) {
        look(viewport().panned(event.getX() - dragX, event.getY() - dragY));
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

    private Optional<Obstacle> obstacleAt(double x, double y) {
        if (opened().isEmpty()
                || model.shown().way().isEmpty()
                || model.shown().trialProperty().get().isPresent()) {
            return Optional.empty();
        }
        return new ObstaclePlaces(opened().get(), model.shown().way().get())
                .near(
                        model.shown().obstacles(),
                        viewport().worldX(x),
                        viewport().worldY(y),
                        MARK_REACH / viewport().scale());
    }

    private void key(KeyEvent event) {
        if (actions.press(event, Action.Scope.MAP)) {
            event.consume();
        }
    }

    /** Lets the keys of actions on the map work. */
    public void setActions(Actions given) {
        actions = given;
    }

    /** Moves what is seen by a step to the right and down, or back. */
    void step(int right, int down) {
        look(viewport().panned(-right * STEP, -down * STEP));
    }

    /** Zooms in by some steps, or out by negative ones, about the middle. */
    void zoom(int steps) {
        double factor = Math.pow(ZOOM, steps);
        look(viewport().zoomedAt(viewport().width() / 2, viewport().height() / 2, factor));
    }

    /** Pins what is in the middle, or chooses the obstacle there. */
    void pickMiddle() {
        pick(viewport().width() / 2, viewport().height() / 2);
    }

    /** Shows the whole fabric. */
    public void fitAll() {
        extents.fabric().ifPresent(this::showWhole);
    }

    /** Shows the way whole. */
    void fitWay() {
        extents.way().ifPresent(this::showWhole);
    }

    /** Shows all wires of the net of what is pinned, or else of the question. */
    void fitNet() {
        extents.net().ifPresent(this::showWhole);
    }

    /** Shows the tile of what is pinned, or else the one in the middle, as large as fits. */
    void fitTile() {
        extents.tile(viewport().centreX(), viewport().centreY())
                .ifPresent(e -> jump(e.in(viewport(), TILE_FIT)));
    }

    @Override
    protected void layoutChildren() {
        double width = Math.max(1, getWidth());
        double height = Math.max(1, getHeight());
        if (width != canvas.getWidth() || height != canvas.getHeight()) {
            canvas.setWidth(width);
            canvas.setHeight(height);
            Optional<Extent> kept = whole;
            Viewport resized = viewport().resized(width, height);
            look(kept.map(e -> e.in(resized, NEAREST_FIT)).orElse(resized));
            whole = kept;
        }
        layers.autosize();
        layers.relocate(APART, APART);
        double top = layers.getHeight() + 2 * APART;
        double wide = Math.min(width - 2 * APART, card.prefWidth(-1));
        double high = Math.min(Math.max(1, height - top), card.prefHeight(wide));
        card.resizeRelocate(APART, top, Math.max(1, wide), high);
    }

    /** What the map shows. */
    public MapModel mapModel() {
        return map;
    }

    /** Paints a view at once, as the next frame would. */
    public void paintNow(Viewport next) {
        look(next);
        dirty = false;
        paint();
    }

    private void paint() {
        GraphicsContext g = canvas.getGraphicsContext2D();
        if (opened().isEmpty()) {
            paintEmpty(g);
            return;
        }
        picture.paint(g, opened().get(), viewport(), palette.get(), density(), isFocused());
    }

    /** Screens of fine pitch have more pixels than the view. */
    private double density() {
        boolean shown = getScene() != null && getScene().getWindow() != null;
        return shown ? Math.max(1, getScene().getWindow().getOutputScaleX()) : 1;
    }

    /** The scene that is on the map now; empty without a design. */
    public Optional<MapScene> scene() {
        return opened().map(o -> picture.scene(o, viewport(), palette.get()));
    }

    private void paintEmpty(GraphicsContext g) {
        Palette colors = palette.get();
        g.setFill(colors.paper());
        g.fillRect(0, 0, viewport().width(), viewport().height());
        g.setFill(colors.faint());
        g.setFont(Font.font(15));
        g.setTextAlign(TextAlignment.CENTER);
        g.fillText(
                "Open a design: drop its file here, or press Ctrl+O.",
                viewport().width() / 2,
                viewport().height() / 2);
    }
}
