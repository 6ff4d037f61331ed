package padward.ui.map;

import java.util.Optional;
import padward.breakout.ask.Hop;
import padward.ui.design.OpenDesign;
import padward.ui.design.TileLayout;
import padward.ui.draw.Viewport;
import padward.ui.scene.Scales;
import padward.ui.scene.WorldRectangle;

/**
 * The ways about the map: steps, jumps that one can come back from, and showing something whole.
 * Which part is seen stands in a {@link ViewHistory}. No control.
 */
final class MapNavigation {
    /** Scale beyond which showing something whole does not go, pixels a tile. */
    static final double NEAREST_FIT = 260;

    private static final double STEP = 60;
    private static final double ZOOM = 1.25;
    private static final double TILE_FIT = 520;

    private final MapModel map;
    private final ViewHistory journey = new ViewHistory();
    private final ViewTargets extents;
    private final Runnable moved;

    /** What is shown whole, until one moves: it is fitted again when the map's size changes. */
    private Optional<WorldRectangle> whole = Optional.empty();

    /**
     * @param moved hears whenever another part is seen
     */
    MapNavigation(MapModel map, Runnable moved) {
        this.map = map;
        this.extents = new ViewTargets(map);
        this.moved = moved;
    }

    /** The part that is seen. */
    Viewport view() {
        return journey.view();
    }

    private Optional<OpenDesign> opened() {
        return map.explorer().openedProperty().get();
    }

    /** Looks elsewhere without leaving a place to come back to. */
    void look(Viewport next) {
        journey.look(next);
        arrive();
    }

    private void jump(Viewport next) {
        if (view().width() < 2) {
            // Not laid out yet: no place to come back to.
            journey.look(next);
        } else {
            journey.jump(next);
        }
        arrive();
    }

    private void arrive() {
        whole = Optional.empty();
        moved.run();
    }

    private void showWhole(WorldRectangle extent) {
        jump(extent.in(view(), NEAREST_FIT));
        whole = Optional.of(extent);
    }

    /** The map has another size; what was shown whole stays so. */
    void resize(double width, double height) {
        Optional<WorldRectangle> kept = whole;
        Viewport resized = view().resized(width, height);
        look(kept.map(e -> e.in(resized, NEAREST_FIT)).orElse(resized));
        whole = kept;
    }

    /** Begins anew with the whole fabric, as for another one. */
    void startAfresh() {
        journey.forget();
        extents.fabric()
                .ifPresent(
                        all -> {
                            look(all.in(view(), NEAREST_FIT));
                            whole = Optional.of(all);
                        });
    }

    /** Back to the place before the last jump. */
    void back() {
        journey.back();
        arrive();
    }

    /** Forward again. */
    void forward() {
        journey.forward();
        arrive();
    }

    /** Moves what is seen by a step to the right and down, or back. */
    void step(int right, int down) {
        pan(-right * STEP, -down * STEP);
    }

    /** Moves the picture by pixels. */
    void pan(double right, double down) {
        look(view().panned(right, down));
    }

    /** Zooms in by some steps, or out by negative ones, about the middle. */
    void zoom(int steps) {
        zoomAt(view().width() / 2, view().height() / 2, steps);
    }

    /** Zooms about a place of the picture, pixels. */
    void zoomAt(double x, double y, double steps) {
        look(view().zoomedAt(x, y, Math.pow(ZOOM, steps)));
    }

    /** Puts a place into the middle. */
    void centreOn(TileLayout.Point place) {
        jump(view().centredOn(place.x(), place.y()));
    }

    /** Goes to a place, at a scale of so many pixels a tile. */
    void goTo(double x, double y, double scale) {
        jump(view().centredOn(x, y).atScale(scale));
    }

    /** Flies to a vertex, and marks it. */
    void flyTo(int vertex) {
        if (opened().isPresent()) {
            map.foundProperty().set(Optional.of(vertex));
            flyToEnd(vertex);
        }
    }

    /** Flies to the hop that is selected, if one is. */
    void flyToHop() {
        map.explorer().shown().findSelectedHop().map(Hop::vertex).ifPresent(this::flyToEnd);
    }

    private void flyToEnd(int vertex) {
        TileLayout.Point at = opened().orElseThrow().layout().end(vertex);
        goTo(at.x(), at.y(), Math.max(view().scale(), Scales.NAMES + 10));
    }

    /** Shows the whole fabric. */
    void fitAll() {
        extents.fabric().ifPresent(this::showWhole);
    }

    /** Shows the way whole. */
    void fitRoute() {
        extents.route().ifPresent(this::showWhole);
    }

    /** Shows all wires of the net of what is pinned, or else of the question. */
    void fitNet() {
        extents.net().ifPresent(this::showWhole);
    }

    /** Shows the tile of what is pinned, or else the one in the middle, as large as fits. */
    void fitTile() {
        extents.tile(view().centreX(), view().centreY())
                .ifPresent(e -> jump(e.in(view(), TILE_FIT)));
    }
}
