package padward.ui.map;

import java.util.List;
import java.util.Optional;
import javafx.animation.AnimationTimer;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.geometry.Point2D;
import javafx.scene.Scene;
import javafx.scene.canvas.Canvas;
import javafx.scene.canvas.GraphicsContext;
import javafx.scene.control.ToolBar;
import javafx.scene.input.ContextMenuEvent;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.Pane;
import javafx.scene.layout.Region;
import javafx.scene.text.Font;
import javafx.scene.text.TextAlignment;
import javafx.stage.Window;
import padward.ui.control.Action;
import padward.ui.control.Actions;
import padward.ui.control.Controls;
import padward.ui.design.OpenDesign;
import padward.ui.design.TileLayout;
import padward.ui.draw.Palette;
import padward.ui.draw.Surface;
import padward.ui.draw.Viewport;
import padward.ui.model.WindowModel;
import padward.ui.scene.MapScene;

/**
 * The fabric map: a canvas with the size of its place on the screen, never that of the fabric. It
 * is redrawn at most once per frame, and only when something has changed.
 */
public final class MapView extends Pane {
    private static final double APART = 8;

    /** Height of a line of text, in letters. */
    private static final double LINE = 1.4;

    private final MapModel map;
    private final WindowModel model;
    private final Canvas canvas = new Canvas();
    private final ObjectProperty<Palette> palette = new SimpleObjectProperty<>(Palette.LIGHT);
    private final MapNavigation navigation;
    private final MapPointer pointer;
    private final MapCanvas picture;
    private final PinnedCard card;
    private final MapMenu menu;

    /** In one row: what has no room there is in a menu at its end. */
    private final ToolBar bar = new ToolBar();

    private Actions actions = new Actions();
    private boolean dirty;
    private final AnimationTimer frames =
            new AnimationTimer() {
                @Override
                public void handle(long now) {
                    if (dirty) {
                        dirty = false;
                        paint();
                    } else {
                        stop();
                    }
                }
            };

    /** A map that is empty until a design is open. */
    public MapView(MapModel map) {
        this.map = map;
        this.model = map.explorer();
        this.picture = new MapCanvas(map);
        this.navigation = new MapNavigation(map, this::scene, this::moved);
        this.pointer = new MapPointer(map, navigation);
        this.card = new PinnedCard(map);
        this.menu = new MapMenu(model);
        setId("map");
        setFocusTraversable(true);
        setAccessibleText(
                "Fabric map. Arrows move, plus and minus zoom, 0 shows all, W the route, N the net,"
                        + " T the tile in the middle, B its switch box, Enter pins what is in the middle,"
                        + " M measures from there.");
        getStyleClass().add("map");
        setMinSize(120, 120);
        bar.setId("map-bar");
        bar.getStyleClass().add("map-bar");
        bar.getItems().add(new LayersButton(map.options()));
        getChildren().addAll(canvas, pointer.under(), pointer.rectangle(), card);
        model.openedProperty().addListener((p, old, now) -> show(old, now));
        model.shown().answerProperty().addListener((p, old, now) -> navigation.fitRoute());
        model.shown().selectedHopProperty().addListener((p, old, now) -> navigation.flyToHop());
        model.requestedNameProperty().addListener((p, old, now) -> now.ifPresent(this::showNamed));
        map.addListener(this::repaint);
        map.options().addListener(p -> navigation.fitAgain());
        model.look().lettersProperty().addListener(p -> navigation.fitAgain());
        map.pinnedProperty().addListener((p, old, now) -> requestLayout());
        palette.addListener((p, old, now) -> repaint());
        focusedProperty().addListener((p, old, now) -> repaint());
        pointer.listenOn(this);
        setOnKeyPressed(this::key);
        setOnContextMenuRequested(this::showMenu);
        fitAll();
        sceneProperty()
                .flatMap(Scene::windowProperty)
                .flatMap(Window::outputScaleXProperty)
                .addListener((p, old, now) -> repaint());
    }

    /** Paints in the next frame; without a change no frames are asked for. */
    private void repaint() {
        dirty = true;
        frames.start();
    }

    /** Whether a frame is wanted. */
    boolean isPainting() {
        return dirty;
    }

    /** Another fabric is shown as a whole; another state of the same fabric keeps the view. */
    private void show(Optional<OpenDesign> old, Optional<OpenDesign> now) {
        boolean sameFabric =
                now.isPresent()
                        && old.isPresent()
                        && now.get().design().fabric() == old.get().design().fabric();
        if (!sameFabric) {
            navigation.startAgain();
        }
    }

    private void showNamed(String name) {
        model.requestedNameProperty().set(Optional.empty());
        opened().map(o -> NameFinder.find(o, name))
                .ifPresent(at -> at.ifPresent(navigation::flyTo));
    }

    /** Its colours. */
    public ObjectProperty<Palette> paletteProperty() {
        return palette;
    }

    /** The part of the fabric that is shown now. */
    public Viewport viewport() {
        return navigation.view();
    }

    private Optional<OpenDesign> opened() {
        return model.openedProperty().get();
    }

    private void moved() {
        repaint();
        pointer.under().setVisible(false);
        map.measure().middleMoved(middle());
    }

    private TileLayout.Point middle() {
        return new TileLayout.Point(viewport().centreX(), viewport().centreY());
    }

    /** Measures from the middle, or puts the ruler away. */
    void toggleMeasure() {
        requestFocus();
        map.measure().toggle(middle());
    }

    /** Moves the view. */
    MapNavigation navigation() {
        return navigation;
    }

    /** Handles the pointer. */
    MapPointer pointer() {
        return pointer;
    }

    /** Goes to a place, at a scale in pixels per tile. */
    public void goTo(double x, double y, double scale) {
        navigation.goTo(x, y, scale);
    }

    /** Shows the whole fabric. */
    public void fitAll() {
        navigation.fitAll();
    }

    private void key(KeyEvent event) {
        if (event.getCode() == KeyCode.ESCAPE && map.measure().rulerProperty().get().isPresent()) {
            map.measure().end();
            event.consume();
        } else if (actions.press(event, Action.Scope.MAP)) {
            event.consume();
        }
    }

    /** For what is under the pointer, or with a key for what is in the middle. */
    private void showMenu(ContextMenuEvent event) {
        if (opened().isEmpty()) {
            return;
        }
        boolean byKey = event.isKeyboardTrigger();
        double x = byKey ? getWidth() / 2 : event.getX();
        double y = byKey ? getHeight() / 2 : event.getY();
        Point2D at = localToScreen(x, y);
        menu.fill(pointer.at(x, y), () -> pointer.pick(x, y), actions)
                .show(this, at.getX(), at.getY());
        event.consume();
    }

    /** Makes the keys and buttons of the map's actions work. */
    public void setActions(Actions given) {
        actions = given;
        bar.getItems()
                .addAll(
                        Controls.button(given.get("back"), "◀"),
                        Controls.button(given.get("forward"), "▶"),
                        Controls.button(given.get("zoom-out"), "−"),
                        Controls.button(given.get("zoom-in"), "+"),
                        Controls.button(given.get("whole-fabric")),
                        Controls.button(given.get("whole-route")),
                        Controls.button(given.get("measure")));
    }

    @Override
    protected void layoutChildren() {
        double width = Math.max(1, getWidth());
        double height = Math.max(1, getHeight());
        if (width != canvas.getWidth() || height != canvas.getHeight()) {
            canvas.setWidth(width);
            canvas.setHeight(height);
            navigation.resize(width, height);
        }
        double wide = Math.min(width - 2 * APART, card.prefWidth(-1));
        double high = Math.min(Math.max(1, height - 2 * APART), card.prefHeight(wide));
        card.resizeRelocate(APART, APART, Math.max(1, wide), high);
        card.stayOnMap();
    }

    /** The buttons of the map, which stand next to it and never on it. */
    public Region bar() {
        return bar;
    }

    /** The model of the map. */
    public MapModel mapModel() {
        return map;
    }

    /** Paints a view now instead of in the next frame. */
    public void paintNow(Viewport next) {
        navigation.look(next);
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

    /** Screens with high resolution have more pixels than the view. */
    private double density() {
        boolean shown = getScene() != null && getScene().getWindow() != null;
        return shown ? Math.max(1, getScene().getWindow().getOutputScaleX()) : 1;
    }

    /** The scene on the map; empty without a design. */
    public Optional<MapScene> scene() {
        return opened().map(o -> scene(o, viewport()));
    }

    private MapScene scene(OpenDesign opened, Viewport view) {
        return picture.scene(opened, view, palette.get());
    }

    /** The same for a file or paper: always in the light theme, with what is shown now. */
    public Optional<MapScene> printScene() {
        return opened().map(o -> new MapCanvas(map).scene(o, viewport(), Palette.LIGHT));
    }

    private void paintEmpty(GraphicsContext g) {
        Palette colors = palette.get();
        g.setFill(colors.paper());
        g.fillRect(0, 0, viewport().width(), viewport().height());
        g.setFill(colors.faint());
        double size = model.look().sized(15).get();
        g.setFont(Font.font(size));
        g.setTextAlign(TextAlignment.CENTER);
        List<String> lines =
                Surface.Lettering.lines(
                        "Open a design: drop its file here, or press Ctrl+O.",
                        size,
                        viewport().width() - 2 * APART);
        for (int i = 0; i < lines.size(); i++) {
            g.fillText(
                    lines.get(i),
                    viewport().width() / 2,
                    viewport().height() / 2 + (i - (lines.size() - 1) / 2.0) * LINE * size);
        }
    }
}
