package padward.ui.map;

import java.util.Optional;
import java.util.function.BiFunction;
import java.util.function.UnaryOperator;
import padward.breakout.ask.Hop;
import padward.ui.design.OpenDesign;
import padward.ui.design.TileLayout;
import padward.ui.draw.Viewport;
import padward.ui.paint.FabricFit;
import padward.ui.scene.MapScene;
import padward.ui.scene.WorldRectangle;
import padward.ui.scene.ZoomScales;

/**
 * Moves the view of the map: steps, jumps that can be undone, and fitting something into the view.
 * The view itself is in a {@link ViewHistory}. Has no controls.
 */
final class MapNavigation {
    /** Largest scale for fitting something into the view, pixels per tile. */
    static final double NEAREST_FIT = 260;

    private static final double STEP = 60;
    private static final double ZOOM = 1.25;
    private static final double TILE_FIT = 520;

    /** Part of the view's height or width that a box gets. */
    private static final double BOX_SHARE = 0.84;

    private final MapModel map;
    private final BiFunction<OpenDesign, Viewport, MapScene> scenes;
    private final ViewHistory history = new ViewHistory();
    private final ViewTargets targets;
    private final Runnable moved;

    /**
     * What is fitted into the view, until the view moves; fitted again when the map changes its
     * size.
     */
    private Optional<UnaryOperator<Viewport>> fitted = Optional.empty();

    /**
     * @param scenes what the map shows of a design in a view, which decides how it fits
     * @param moved runs after every change of the view
     */
    MapNavigation(MapModel map, BiFunction<OpenDesign, Viewport, MapScene> scenes, Runnable moved) {
        this.map = map;
        this.scenes = scenes;
        this.targets = new ViewTargets(map);
        this.moved = moved;
    }

    /** The part of the fabric that is shown. */
    Viewport view() {
        return history.view();
    }

    private Optional<OpenDesign> opened() {
        return map.explorer().openedProperty().get();
    }

    /** Changes the view without remembering the old one. */
    void look(Viewport next) {
        history.look(next);
        arrive();
    }

    private void jump(Viewport next) {
        if (view().width() < 2) {
            // The map has no size yet: there is no view to remember.
            history.look(next);
        } else {
            history.jump(next);
        }
        arrive();
    }

    private void arrive() {
        fitted = Optional.empty();
        moved.run();
    }

    private void showWhole(WorldRectangle target) {
        showWhole(view -> target.in(view, NEAREST_FIT));
    }

    private void showWhole(UnaryOperator<Viewport> fit) {
        jump(fit.apply(view()));
        fitted = Optional.of(fit);
    }

    /** Fits again what was fitted, as when legend or letters need another room. */
    void fitAgain() {
        Optional<UnaryOperator<Viewport>> kept = fitted;
        Viewport now = view();
        kept.map(fit -> fit.apply(now)).filter(next -> !next.equals(now)).ifPresent(this::look);
        fitted = kept;
    }

    private Viewport whole(Viewport view) {
        return targets.fabric()
                .flatMap(
                        all ->
                                opened().map(
                                                o ->
                                                        FabricFit.in(
                                                                scenes.apply(o, view),
                                                                all,
                                                                NEAREST_FIT)))
                .orElse(view);
    }

    /** Adapts to another size of the map; what was fitted stays fitted. */
    void resize(double width, double height) {
        Optional<UnaryOperator<Viewport>> kept = fitted;
        Viewport resized = view().resized(width, height);
        look(kept.map(fit -> fit.apply(resized)).orElse(resized));
        fitted = kept;
    }

    /** Begins again with the whole fabric, as for another one. */
    void startAgain() {
        history.forget();
        if (opened().isPresent()) {
            look(whole(view()));
            fitted = Optional.of(this::whole);
        }
    }

    /** Goes back to the view before the last jump. */
    void back() {
        history.back();
        arrive();
    }

    /** Goes forward again. */
    void forward() {
        history.forward();
        arrive();
    }

    /** Moves the view by steps to the right and down; negative values move it back. */
    void step(int right, int down) {
        pan(-right * STEP, -down * STEP);
    }

    /** Moves the picture, pixels. */
    void pan(double right, double down) {
        look(view().panned(right, down));
    }

    /** Zooms in by a number of steps around the middle; negative values zoom out. */
    void zoom(int steps) {
        zoomAt(view().width() / 2, view().height() / 2, steps);
    }

    /** Zooms around a point of the picture, pixels. */
    void zoomAt(double x, double y, double steps) {
        look(view().zoomedAt(x, y, Math.pow(ZOOM, steps)));
    }

    /** Zooms around a point of the picture by a factor, as two fingers do. */
    void zoomBy(double x, double y, double factor) {
        look(view().zoomedAt(x, y, factor));
    }

    /** Moves a place to the middle. */
    void centreOn(TileLayout.Point place) {
        jump(view().centredOn(place.x(), place.y()));
    }

    /** Goes to a place, at a scale in pixels per tile. */
    void goTo(double x, double y, double scale) {
        jump(view().centredOn(x, y).atScale(scale));
    }

    /** Flies to what was found so that all of it is seen, and marks it. */
    void flyTo(FoundPlace place) {
        map.showFound(place);
        showWhole(place.whole());
    }

    /** Flies to the hop that is selected, if one is. */
    void flyToHop() {
        map.explorer().shown().findSelectedHop().map(Hop::vertex).ifPresent(this::flyToEnd);
    }

    private void flyToEnd(int vertex) {
        TileLayout.Point at = opened().orElseThrow().layout().end(vertex);
        goTo(at.x(), at.y(), Math.max(view().scale(), ZoomScales.NAMES + 10));
    }

    /** Shows the whole fabric. */
    void fitAll() {
        if (opened().isPresent()) {
            showWhole(this::whole);
        }
    }

    /** Shows the whole route. */
    void fitRoute() {
        targets.route().ifPresent(this::showWhole);
    }

    /** Shows all wires of the net of the pinned thing, or else of the question. */
    void fitNet() {
        targets.net().ifPresent(this::showWhole);
    }

    /**
     * Shows the inside of the switch box of the pinned thing's tile, or of the one in the middle.
     */
    void fitBox() {
        targets.box(view().centreX(), view().centreY())
                .ifPresent(
                        middle -> {
                            double room = Math.min(view().width(), view().height());
                            double fit = BOX_SHARE * room / (2 * TileLayout.BOX_RADIUS);
                            goTo(middle.x(), middle.y(), Math.max(ZoomScales.BOX, fit));
                        });
    }

    /** Shows the tile of the pinned thing, or else the one in the middle, as large as possible. */
    void fitTile() {
        targets.tile(view().centreX(), view().centreY())
                .ifPresent(e -> jump(e.in(view(), TILE_FIT)));
    }
}
