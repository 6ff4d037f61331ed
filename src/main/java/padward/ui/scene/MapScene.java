package padward.ui.scene;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import javafx.scene.paint.Color;
import padward.breakout.ask.Obstacle;
import padward.breakout.ask.Route;
import padward.design.Net;
import padward.ui.design.OpenDesign;
import padward.ui.design.TileRange;
import padward.ui.draw.Marks;
import padward.ui.draw.Palette;
import padward.ui.draw.TileImage;
import padward.ui.draw.Viewport;

/**
 * Everything that one picture of the map shows, as a value: the same scene gives the same picture
 * on screen and in a file.
 *
 * @param opened the design
 * @param view the part that is shown
 * @param palette its colours
 * @param letters size of letters, relative to the usual size
 * @param layers the layers shown
 * @param cells all tiles, one pixel each, in the colours of the palette
 * @param net the net of the question
 * @param route the present route
 * @param alternatives other routes
 * @param before during a what-if: the route without it
 * @param obstacles the obstacles on the route; during a what-if, what it removes
 * @param chosenObstacle the chosen obstacle
 * @param marked vertices with a ring around them
 * @param reach how far the net gets, once that is known
 * @param overlay what another view paints over it
 */
public record MapScene(
        OpenDesign opened,
        Viewport view,
        Palette palette,
        double letters,
        Set<MapLayer> layers,
        TileImage cells,
        Optional<Net> net,
        Optional<Route> route,
        List<Route> alternatives,
        Optional<Route> before,
        List<Obstacle> obstacles,
        Optional<Obstacle> chosenObstacle,
        List<Integer> marked,
        Optional<NetReach> reach,
        Optional<MapOverlay> overlay) {
    private static final double FADED = 0.45;

    /** Height in pixels below which a map has no room for its legend beside the names on it. */
    private static final double LOW = 180;

    /** Copies the lists. */
    public MapScene {
        alternatives = List.copyOf(alternatives);
        obstacles = List.copyOf(obstacles);
        marked = List.copyOf(marked);
    }

    /** Whether a layer is shown: one that is on, and for which the map is high enough. */
    public boolean shows(MapLayer layer) {
        boolean fits = layer != MapLayer.LEGEND || view.height() >= LOW;
        return fits && layers.contains(layer);
    }

    /** The same with other layers. */
    public MapScene showing(Set<MapLayer> others) {
        return new MapScene(
                opened,
                view,
                palette,
                letters,
                others,
                cells,
                net,
                route,
                alternatives,
                before,
                obstacles,
                chosenObstacle,
                marked,
                reach,
                overlay);
    }

    /** The same in another view. */
    public MapScene seenIn(Viewport other) {
        return new MapScene(
                opened,
                other,
                palette,
                letters,
                layers,
                cells,
                net,
                route,
                alternatives,
                before,
                obstacles,
                chosenObstacle,
                marked,
                reach,
                overlay);
    }

    /** The same with another overlay. */
    public MapScene with(Optional<MapOverlay> other) {
        return new MapScene(
                opened,
                view,
                palette,
                letters,
                layers,
                cells,
                net,
                route,
                alternatives,
                before,
                obstacles,
                chosenObstacle,
                marked,
                reach,
                other);
    }

    /** The delay bands, when they are known and shown. */
    public Optional<NetReach> bands() {
        return shows(MapLayer.DELAY) ? reach : Optional.empty();
    }

    /**
     * The colour of used wires; they fade while a route is shown, which is to be seen at a glance.
     */
    public Color usedWires() {
        boolean routeShown = route.isPresent() && shows(MapLayer.ROUTE);
        return routeShown
                ? palette.usedStrong().interpolate(palette.tile(), FADED)
                : palette.usedStrong();
    }

    /** The colour of free wires; where a route is shown they fade, too. */
    public Color freeWires() {
        boolean routeShown = route.isPresent() && shows(MapLayer.ROUTE);
        return palette.tile().interpolate(palette.box(), routeShown ? 0.26 : 0.5);
    }

    /** Size of letters in pixels, given their usual size. */
    public double letters(double usual) {
        return letters * usual;
    }

    /** A line between two places of the map, drawn as marks. */
    public void line(Marks marks, double x0, double y0, double x1, double y1, int wide, int pixel) {
        marks.line(
                view.screenX(x0),
                view.screenY(y0),
                view.screenX(x1),
                view.screenY(y1),
                wide,
                pixel);
    }

    /** The tiles in view, and one more on each side. */
    public TileRange tilesSeen() {
        return TileRange.of(
                opened.design().fabric(),
                (int) Math.floor(view.worldX(0)) - 1,
                (int) Math.floor(view.worldX(view.width())) + 1,
                (int) Math.floor(view.worldY(view.height())) - 1,
                (int) Math.floor(view.worldY(0)) + 1);
    }

    /** Pixels per tile. */
    public double scale() {
        return view.scale();
    }
}
