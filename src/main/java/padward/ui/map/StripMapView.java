package padward.ui.map;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.scene.canvas.Canvas;
import javafx.scene.control.ScrollPane;
import javafx.scene.input.ContextMenuEvent;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.input.MouseButton;
import javafx.scene.layout.Pane;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Hop;
import padward.breakout.ask.Obstacle;
import padward.breakout.ask.Route;
import padward.design.Net;
import padward.fabric.delay.Corner;
import padward.ui.draw.CanvasSurface;
import padward.ui.draw.Palette;
import padward.ui.draw.Raster;
import padward.ui.model.WindowModel;
import padward.ui.paint.StripPainter;
import padward.ui.scene.StripLayout;
import padward.ui.scene.StripScene;

/** The strip map: the route as a line to the scale of delay. A click on a mark selects its hop. */
public final class StripMapView extends ScrollPane {
    private static final double LEAST_WIDTH = 100;
    private static final double BAR = 16;

    /** Closer to an end than this, a hop's name is cut off, pixels. */
    private static final double NAME_MARGIN = 60;

    private final MapModel map;
    private final WindowModel model;
    private final MapMenu menu;
    private final Canvas canvas = new Canvas(LEAST_WIDTH, 1);
    private final Raster none = new Raster(1, 1);
    private final ObjectProperty<Palette> palette = new SimpleObjectProperty<>(Palette.LIGHT);
    private Optional<StripLayout> layout = Optional.empty();

    /** Shows the route of the present question. */
    public StripMapView(MapModel map) {
        this.map = map;
        this.model = map.explorer();
        this.menu = new MapMenu(model);
        setId("strip-map");
        setAccessibleText(
                "Strip map of the route. Left and right choose a hop; the map flies there.");
        setContent(new Pane(canvas));
        setFitToHeight(true);
        setVbarPolicy(ScrollBarPolicy.NEVER);
        size();
        getStyleClass().add("strip-map");
        model.shown().answerProperty().addListener((p, old, now) -> paint());
        model.shown().selectedHopProperty().addListener((p, old, now) -> paint());
        model.shown().optionProperty().addListener((p, old, now) -> paint());
        model.shown().whatIfProperty().addListener((p, old, now) -> paint());
        map.chosenObstacleProperty().addListener((p, old, now) -> paint());
        model.look().lettersProperty().addListener((p, old, now) -> size());
        viewportBoundsProperty().addListener((p, old, now) -> paint());
        model.shown()
                .selectedHopProperty()
                .addListener((p, old, now) -> now.ifPresent(hop -> follow(List.of(hop))));
        map.chosenObstacleProperty()
                .addListener((p, old, now) -> now.ifPresent(o -> follow(o.hops())));
        palette.addListener((p, old, now) -> paint());
        canvas.setOnMouseClicked(
                e -> {
                    requestFocus();
                    if (e.getButton() == MouseButton.PRIMARY) {
                        layout.ifPresent(l -> select(l.nearest(e.getX())));
                    }
                });
        setOnContextMenuRequested(this::showMenu);
        addEventFilter(
                KeyEvent.KEY_PRESSED,
                e -> {
                    if (e.getCode() == KeyCode.LEFT || e.getCode() == KeyCode.RIGHT) {
                        step(e.getCode() == KeyCode.RIGHT ? 1 : -1);
                        e.consume();
                    }
                });
    }

    /** For the hop under the pointer, or with a key for the selected one. */
    private void showMenu(ContextMenuEvent event) {
        Optional<Route> route = model.shown().route();
        if (route.isEmpty() || layout.isEmpty()) {
            return;
        }
        List<Hop> hops = route.get().hops();
        double x = canvas.screenToLocal(event.getScreenX(), event.getScreenY()).getX();
        int mark =
                event.isKeyboardTrigger()
                        ? model.shown().selectedHopProperty().get().orElse(0)
                        : layout.get().nearest(x);
        Hop hop = hops.get(Math.min(mark, hops.size() - 1));
        Optional<String> usedBy =
                model.openedProperty()
                        .get()
                        .flatMap(o -> new MapItemDescriber(o).vertex(hop.vertex()).net())
                        .map(Net::name);
        String all = hops.stream().map(Hop::name).collect(Collectors.joining("\n"));
        menu.fill(hop.name(), usedBy, all).show(this, event.getScreenX(), event.getScreenY());
        event.consume();
    }

    private void size() {
        double letters = model.look().lettersProperty().get();
        setMinHeight(StripPainter.leastHeight(letters) + BAR);
        setPrefHeight(StripPainter.height(letters) + BAR);
        paint();
    }

    /** Scrolls to hops that are out of view. */
    private void follow(List<Integer> hops) {
        if (layout.isEmpty() || hops.isEmpty()) {
            return;
        }
        double first = layout.get().position(hops.get(0));
        double last = layout.get().position(hops.get(hops.size() - 1));
        double visible = visibleWidth();
        double beyond = canvas.getWidth() - visible;
        double left = getHvalue() * beyond;
        boolean seen = first > left + NAME_MARGIN && last < left + visible - NAME_MARGIN;
        if (beyond > 0 && !seen) {
            double wanted = (first + last - visible) / 2;
            setHvalue(Math.max(0, Math.min(1, wanted / beyond)));
        }
    }

    /** Its colours. */
    public ObjectProperty<Palette> paletteProperty() {
        return palette;
    }

    private void step(int by) {
        int now = model.shown().selectedHopProperty().get().orElse(by > 0 ? -1 : 0);
        select(now + by);
    }

    private void select(int mark) {
        model.shown()
                .route()
                .ifPresent(
                        w -> {
                            int last = w.hops().size() - 1;
                            int hop = Math.max(0, Math.min(last, mark));
                            model.shown().selectedHopProperty().set(Optional.of(hop));
                        });
    }

    /** The scene to paint. */
    public StripScene scene() {
        boolean noRoute =
                model.shown()
                        .answerProperty()
                        .get()
                        .filter(a -> a instanceof Answer.NoRoute)
                        .isPresent();
        return new StripScene(
                model.shown().route(),
                noRoute
                        ? "There is no route to draw. Try another pad."
                        : "Ask a question, and its route is drawn here to the scale of delay.",
                model.shown()
                        .answerProperty()
                        .get()
                        .map(a -> a.question().corner())
                        .orElse(Corner.SLOW),
                palette.get(),
                model.look().lettersProperty().get(),
                model.shown().selectedHopProperty().get(),
                map.chosenObstacleProperty()
                        .get()
                        .map(Obstacle::hops)
                        .map(Set::copyOf)
                        .orElse(Set.of()));
    }

    /** Available width, pixels. */
    public double visibleWidth() {
        return Math.max(LEAST_WIDTH, getViewportBounds().getWidth());
    }

    /** The same for a file or paper: always in the light theme. */
    public StripScene printScene() {
        return scene().in(Palette.LIGHT);
    }

    private void paint() {
        StripScene scene = scene();
        double visible = visibleWidth();
        layout = StripPainter.layout(scene, visible);
        double height =
                Math.max(
                        StripPainter.leastHeight(scene.letters()), getViewportBounds().getHeight());
        canvas.setWidth(StripPainter.width(scene, layout, visible));
        canvas.setHeight(height);
        new StripPainter(scene, new CanvasSurface(canvas.getGraphicsContext2D(), none), height)
                .paint(layout, visible);
    }
}
