package padward.ui;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;
import javafx.animation.AnimationTimer;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.scene.canvas.Canvas;
import javafx.scene.canvas.GraphicsContext;
import javafx.scene.control.Label;
import javafx.scene.input.KeyEvent;
import javafx.scene.input.MouseEvent;
import javafx.scene.layout.Pane;
import javafx.scene.text.Font;
import javafx.scene.text.TextAlignment;
import padward.breakout.Hop;
import padward.breakout.Way;

/**
 * The fabric map: a canvas as large as its place on the screen, never as the fabric. It is redrawn
 * at most once a frame, when something has changed.
 */
final class MapView extends Pane {
    private static final double STEP = 60;
    private static final double ZOOM = 1.25;
    private static final double NEAREST_FIT = 260;
    private static final int MOST_PLACES = 50;

    private final ExplorerModel model;
    private final Canvas canvas = new Canvas();
    private final ObjectProperty<Palette> palette = new SimpleObjectProperty<>(Palette.LIGHT);
    private Viewport view = new Viewport(1, 1, 0, 0, 40);
    private boolean dirty = true;
    private boolean fitWhenShown;
    private double dragX;
    private double dragY;
    private final Label under = new Label();
    private final Deque<Viewport> before = new ArrayDeque<>();
    private final Deque<Viewport> ahead = new ArrayDeque<>();
    private Optional<Integer> found = Optional.empty();

    /** Pictures kept from frame to frame; made when first needed. */
    private Raster raster;

    private Ground ground;
    private Actions actions = new Actions();
    private Opened groundOf;
    private Palette groundIn;

    MapView(ExplorerModel model) {
        this.model = model;
        setId("map");
        setFocusTraversable(true);
        setAccessibleText("Fabric map. Arrows move, plus and minus zoom, 0 shows all, W the way.");
        getStyleClass().add("map");
        setMinSize(120, 120);
        under.setId("under-pointer");
        under.getStyleClass().add("under-pointer");
        under.setVisible(false);
        under.setMouseTransparent(true);
        getChildren().addAll(canvas, under);
        setOnMouseMoved(e -> tellUnder(e.getX(), e.getY()));
        setOnMouseExited(e -> under.setVisible(false));
        model.openedProperty()
                .addListener(
                        (p, old, now) -> {
                            found = Optional.empty();
                            boolean sameFabric =
                                    now.isPresent()
                                            && old.isPresent()
                                            && now.get().design().fabric()
                                                    == old.get().design().fabric();
                            dirty = true;
                            if (!sameFabric) {
                                before.clear();
                                ahead.clear();
                                fitAll();
                            }
                        });
        model.answerProperty().addListener((p, old, now) -> fitWay());
        model.selectedHopProperty().addListener((p, old, now) -> showSelected());
        model.previewProperty().addListener((p, old, now) -> dirty = true);
        model.optionProperty().addListener((p, old, now) -> dirty = true);
        model.trialProperty().addListener((p, old, now) -> dirty = true);
        palette.addListener((p, old, now) -> dirty = true);
        focusedProperty().addListener((p, old, now) -> dirty = true);
        setOnScroll(
                e -> {
                    double factor = Math.pow(ZOOM, Math.signum(e.getDeltaY()));
                    look(view.zoomedAt(e.getX(), e.getY(), factor));
                    e.consume();
                });
        setOnMousePressed(this::press);
        setOnMouseDragged(this::drag);
        setOnKeyPressed(this::key);
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

    ObjectProperty<Palette> paletteProperty() {
        return palette;
    }

    Viewport viewport() {
        return view;
    }

    private void look(Viewport next) {
        view = next;
        dirty = true;
        under.setVisible(false);
    }

    /** Goes somewhere else, from where one may come back. */
    private void jump(Viewport next) {
        if (!next.equals(view)) {
            before.push(view);
            while (before.size() > MOST_PLACES) {
                before.removeLast();
            }
            ahead.clear();
        }
        look(next);
    }

    /** Back to the place before the last jump. */
    void back() {
        if (!before.isEmpty()) {
            ahead.push(view);
            look(before.pop().resized(view.width(), view.height()));
        }
    }

    /** Forward again. */
    void forward() {
        if (!ahead.isEmpty()) {
            before.push(view);
            look(ahead.pop().resized(view.width(), view.height()));
        }
    }

    /** Flies to a vertex, and marks it. */
    void flyTo(int vertex) {
        model.openedProperty()
                .get()
                .ifPresent(
                        o -> {
                            found = Optional.of(vertex);
                            TileLayout.Point at = o.layout().end(vertex);
                            double scale = Math.max(view.scale(), MapPainter.NAMES + 10);
                            jump(view.centredOn(at.x(), at.y()).atScale(scale));
                        });
    }

    private void tellUnder(double x, double y) {
        Optional<String> text =
                model.openedProperty()
                        .get()
                        .flatMap(
                                o ->
                                        UnderPointer.text(
                                                o, view.worldX(x), view.worldY(y), view.scale()));
        under.setVisible(text.isPresent());
        text.ifPresent(
                t -> {
                    under.setText(t);
                    under.autosize();
                    under.relocate(8, Math.max(0, view.height() - under.getHeight() - 8));
                });
    }

    private void press(MouseEvent event) {
        requestFocus();
        Optional<Opened> opened = model.openedProperty().get();
        if (opened.isPresent()) {
            Optional<TileLayout.Point> place =
                    OverviewPainter.placeAt(opened.get(), view, event.getX(), event.getY());
            place.ifPresent(p -> jump(view.centredOn(p.x(), p.y())));
        }
        dragX = event.getX();
        dragY = event.getY();
    }

    private void drag(MouseEvent event) {
        look(view.panned(event.getX() - dragX, event.getY() - dragY));
        dragX = event.getX();
        dragY = event.getY();
    }

    private void key(KeyEvent event) {
        if (actions.press(event, Action.Scope.MAP)) {
            event.consume();
        }
    }

    /** Lets the keys of actions on the map work. */
    void setActions(Actions actions) {
        this.actions = actions;
    }

    /** Moves what is seen by a step to the right and down, or back. */
    void step(int right, int down) {
        look(view.panned(-right * STEP, -down * STEP));
    }

    /** Zooms in by some steps, or out by negative ones, about the middle. */
    void zoom(int steps) {
        look(view.zoomedAt(view.width() / 2, view.height() / 2, Math.pow(ZOOM, steps)));
    }

    /** Shows the whole fabric. */
    void fitAll() {
        dirty = true;
        if (view.width() < 2) {
            fitWhenShown = true;
            return;
        }
        model.openedProperty()
                .get()
                .ifPresent(
                        o -> {
                            int columns = o.design().fabric().columns();
                            int rows = o.design().fabric().rows();
                            jump(view.fitted(-0.5, -0.5, columns + 0.5, rows + 0.5, NEAREST_FIT));
                        });
    }

    /** Shows the way whole; the whole fabric when there is none. */
    void fitWay() {
        dirty = true;
        Optional<Way> way = model.way();
        if (way.isEmpty() || model.openedProperty().get().isEmpty()) {
            return;
        }
        TileLayout layout = model.openedProperty().get().get().layout();
        double[] bounds = {
            Double.MAX_VALUE, Double.MAX_VALUE, -Double.MAX_VALUE, -Double.MAX_VALUE
        };
        for (Hop hop : way.get().hops()) {
            include(bounds, layout.start(hop.vertex()));
            include(bounds, layout.end(hop.vertex()));
        }
        double margin = 0.6;
        jump(
                view.fitted(
                        bounds[0] - margin,
                        bounds[1] - margin,
                        bounds[2] + margin,
                        bounds[3] + margin,
                        NEAREST_FIT));
    }

    private static void include(double[] bounds, TileLayout.Point point) {
        bounds[0] = Math.min(bounds[0], point.x());
        bounds[1] = Math.min(bounds[1], point.y());
        bounds[2] = Math.max(bounds[2], point.x());
        bounds[3] = Math.max(bounds[3], point.y());
    }

    private Optional<Hop> selectedHop() {
        return model.selectedHopProperty()
                .get()
                .flatMap(i -> model.way().map(w -> w.hops().get(i)));
    }

    private void showSelected() {
        dirty = true;
        selectedHop()
                .ifPresent(
                        h -> {
                            TileLayout layout = model.openedProperty().get().orElseThrow().layout();
                            TileLayout.Point at = layout.end(h.vertex());
                            double scale = Math.max(view.scale(), MapPainter.NAMES + 10);
                            jump(view.centredOn(at.x(), at.y()).atScale(scale));
                        });
    }

    @Override
    protected void layoutChildren() {
        double width = Math.max(1, getWidth());
        double height = Math.max(1, getHeight());
        if (width != canvas.getWidth() || height != canvas.getHeight()) {
            canvas.setWidth(width);
            canvas.setHeight(height);
            look(view.resized(width, height));
            if (fitWhenShown && width > 2) {
                fitWhenShown = false;
                fitAll();
            }
        }
    }

    /** Paints a view at once, as the next frame would. */
    void paintNow(Viewport next) {
        look(next);
        dirty = false;
        paint();
    }

    private void paint() {
        GraphicsContext g = canvas.getGraphicsContext2D();
        Palette colors = palette.get();
        Optional<Opened> opened = model.openedProperty().get();
        if (opened.isEmpty()) {
            paintEmpty(g, colors);
            return;
        }
        if (groundOf != opened.get() || groundIn != colors) {
            groundOf = opened.get();
            groundIn = colors;
            ground = new Ground(groundOf, colors);
        }
        int wide = (int) Math.ceil(view.width());
        int high = (int) Math.ceil(view.height());
        if (raster == null || !raster.hasSize(wide, high)) {
            raster = new Raster(wide, high);
        }
        new MapPainter(opened.get(), view, colors, g, ground, raster).paint();
        WayPainter marks = new WayPainter(opened.get().layout(), view, colors, g);
        model.answerProperty().get().ifPresent(a -> marks.paintTree(a.question().net()));
        model.options().stream()
                .map(o -> o.way())
                .filter(w -> !model.way().equals(Optional.of(w)))
                .forEach(marks::paintAlternative);
        model.way().ifPresent(marks::paintWay);
        model.way()
                .ifPresent(
                        w ->
                                marks.paintObstacles(
                                        model.obstacles(), w, opened.get().design().fabric()));
        model.previewProperty()
                .get()
                .flatMap(QuestionModel::wayOf)
                .ifPresent(marks::paintAlternative);
        marks.paintSelection(selectedHop());
        found.ifPresent(marks::paintFound);
        new OverviewPainter(opened.get(), view, colors, g).paint();
        if (isFocused()) {
            g.setStroke(colors.selection());
            g.setLineWidth(2);
            g.strokeRect(1, 1, view.width() - 2, view.height() - 2);
        }
    }

    private void paintEmpty(GraphicsContext g, Palette colors) {
        g.setFill(colors.paper());
        g.fillRect(0, 0, view.width(), view.height());
        g.setFill(colors.faint());
        g.setFont(Font.font(15));
        g.setTextAlign(TextAlignment.CENTER);
        g.fillText(
                "Open a design: drop its file here, or press Ctrl+O.",
                view.width() / 2,
                view.height() / 2);
    }
}
