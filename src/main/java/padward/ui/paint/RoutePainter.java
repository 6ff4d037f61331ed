package padward.ui.paint;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javafx.geometry.Rectangle2D;
import javafx.scene.paint.Color;
import padward.breakout.ask.Hop;
import padward.breakout.ask.Obstacle;
import padward.breakout.ask.Route;
import padward.design.Net;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.ui.design.TileLayout;
import padward.ui.draw.Palette;
import padward.ui.draw.Surface;
import padward.ui.draw.Tag;
import padward.ui.draw.Viewport;
import padward.ui.scene.MapLayer;
import padward.ui.scene.MapPen;
import padward.ui.scene.MapScene;
import padward.ui.scene.ObstaclePlaces;
import padward.ui.scene.ZoomScales;

/**
 * Paints what is highlighted on the map: the net's own tree, routes, obstacles, and rings around
 * what is selected.
 */
final class RoutePainter {
    private static final double ROUTE_WIDTH = 4;

    /** Of the dashes where something else uses the route, around a core of its own colour. */
    private static final double BLOCKED_WIDTH = 7.5;

    /** Radius of the dot where the route goes through a switch. */
    private static final double SWITCH = 4;

    private static final double MARK = 7;
    private static final double RING = 14;
    private static final double HATCH = 6;

    /** How much wider the paper below a line is, which separates it from a crowded background. */
    private static final double CASING = 2.5;

    /**
     * Paper below a larger net would take the time of a frame; such a net is visible without it.
     */
    private static final int MAX_CASED = 400;

    private static final double NAME = 12;

    /** Number of rows above and below where a place for a name is tried. */
    private static final int ROWS = 4;

    private final MapScene scene;
    private final Surface out;
    private final MapPen pen;
    private final TileLayout layout;
    private final Viewport view;
    private final Palette palette;
    private final List<Rectangle2D> names = new ArrayList<>();

    RoutePainter(MapScene scene, Surface out) {
        this.scene = scene;
        this.out = out;
        this.pen = new MapPen(scene, out);
        this.layout = scene.opened().layout();
        this.view = scene.view();
        this.palette = scene.palette();
    }

    void paint() {
        if (scene.shows(MapLayer.TREE)) {
            scene.net().ifPresent(this::paintTree);
        }
        if (scene.shows(MapLayer.ALTERNATIVES)) {
            scene.alternatives().forEach(this::paintAlternative);
        }
        if (scene.shows(MapLayer.ROUTE)) {
            scene.route().ifPresent(this::paintRoute);
            scene.before().ifPresent(this::paintBefore);
        }
        boolean obstacles = scene.shows(MapLayer.OBSTACLES);
        if (obstacles && scene.before().isEmpty()) {
            scene.route().ifPresent(this::paintBlocked);
        }
        if (scene.shows(MapLayer.ROUTE)) {
            scene.route().ifPresent(this::paintSwitches);
        }
        new BoxPainter(scene, out).paint();
        if (shownObstacleRoute().isPresent()) {
            takePlaces();
        }
        if (scene.shows(MapLayer.ROUTE)) {
            RouteRimMarks rim = new RouteRimMarks(scene, out);
            scene.route().ifPresent(r -> rim.paint(r, names));
        }
        if (obstacles) {
            shownObstacleRoute().ifPresent(this::paintObstacles);
        }
        scene.marked().forEach(this::paintRing);
    }

    /** The obstacles are on the route without the what-if, if there is one. */
    private Optional<Route> shownObstacleRoute() {
        return scene.before().or(scene::route);
    }

    private void paintAlternative(Route route) {
        lines(route, casing(2.5));
        lines(route, new Surface.Line(palette.alternative(), 2.5, 9, 6));
        pill(route, new Surface.Line(palette.alternative(), 2.5, 9, 6));
    }

    private void paintRoute(Route route) {
        Surface.Line line = new Surface.Line(palette.route(), ROUTE_WIDTH);
        lines(route, casing(ROUTE_WIDTH));
        lines(route, line);
        disc(route.hops().get(0), palette.route());
        pill(route, line);
    }

    /** A dot at each switch that leaves a wire: a box that a wire only passes looks the same. */
    private void paintSwitches(Route route) {
        if (scene.scale() < ZoomScales.PARTS || scene.scale() >= ZoomScales.BOX) {
            return;
        }
        List<Integer> vertices = vertices(route);
        for (int i = 1; i < vertices.size(); i++) {
            int from = vertices.get(i - 1);
            boolean isSwitch =
                    route.hops().get(i).edge().filter(k -> k == EdgeKind.SWITCH).isPresent();
            if (!isSwitch || scene.opened().index().head(from) == Fabric.NOTHING) {
                continue;
            }
            TileLayout.Meeting where = layout.meeting(from, vertices.get(i));
            TileLayout.Point at = layout.exit(from, where.fromTile());
            double x = view.screenX(at.x());
            double y = view.screenY(at.y());
            out.fillDisc(x, y, SWITCH + 1.5, palette.paper());
            out.fillDisc(x, y, SWITCH, palette.route());
        }
    }

    /** The route without the what-if, dotted, next to the route with it. */
    private void paintBefore(Route route) {
        boolean same = scene.route().filter(w -> vertices(w).equals(vertices(route))).isPresent();
        if (!same) {
            lines(route, casing(2.5));
            lines(route, new Surface.Line(palette.obstacle(), 2.5, 2, 6));
            pill(route, new Surface.Line(palette.obstacle(), 2.5, 2, 6));
        }
    }

    private void paintTree(Net net) {
        if (net.route().size() <= MAX_CASED) {
            pen.tree(net.route(), casing(2));
        }
        pen.tree(net.route(), new Surface.Line(palette.net(), 2));
    }

    private Surface.Line casing(double width) {
        return new Surface.Line(palette.paper(), width + CASING);
    }

    private static List<Integer> vertices(Route route) {
        return route.hops().stream().map(Hop::vertex).toList();
    }

    private void lines(Route route, Surface.Line line) {
        pen.route(route.hops().stream().mapToInt(Hop::vertex).toArray(), line);
    }

    /** Where something else uses it, the route is dashed around a core that goes on. */
    private void paintBlocked(Route route) {
        int[] vertices = route.hops().stream().mapToInt(Hop::vertex).toArray();
        for (Surface.Line line :
                List.of(
                        casing(BLOCKED_WIDTH),
                        new Surface.Line(palette.obstacle(), BLOCKED_WIDTH, 5, 9),
                        new Surface.Line(palette.route(), 0.4 * BLOCKED_WIDTH))) {
            for (int hop = 0; hop < vertices.length; hop++) {
                if (route.hops().get(hop).obstacle().isPresent()) {
                    pen.hop(vertices, hop, line);
                }
            }
        }
    }

    /** Each obstacle once, with its name; hatched over the whole site if it uses a site. */
    private void paintObstacles(Route route) {
        boolean blocking = scene.before().isEmpty();
        ObstaclePlaces places = new ObstaclePlaces(scene.opened(), route, scene.scale());
        for (Obstacle obstacle : scene.obstacles()) {
            places.site(obstacle).ifPresent(box -> hatch(box, blocking));
            TileLayout.Point at = places.of(obstacle);
            double x = view.screenX(at.x());
            double y = view.screenY(at.y());
            if (blocking) {
                bar(out, palette, x, y);
            } else {
                out.outlineDisc(x, y, MARK, new Surface.Line(palette.obstacle(), 2, 2, 5));
            }
            if (scene.chosenObstacle().filter(obstacle::equals).isPresent()) {
                out.outlineDisc(x, y, RING, new Surface.Line(palette.selection(), 3));
            }
            name(obstacle.occupant().name() + (blocking ? "" : " no longer blocks"), x, y);
        }
    }

    private void hatch(TileLayout.Box box, boolean blocking) {
        double x = view.screenX(box.x());
        double y = view.screenY(box.y() + box.height());
        double w = box.width() * view.scale();
        double h = box.height() * view.scale();
        Surface.Line thin = new Surface.Line(palette.obstacle(), 1.6);
        // Each stroke is calculated to end at the box: clipping by the canvas would take 7 ms.
        for (double at = x - h + HATCH; blocking && at < x + w; at += HATCH) {
            double from = Math.max(at, x);
            double to = Math.min(at + h, x + w);
            out.line(from, y + h - (from - at), to, y + h - (to - at), thin);
        }
        out.outlineRect(
                x,
                y,
                w,
                h,
                6,
                blocking
                        ? new Surface.Line(palette.obstacle(), 2.5)
                        : new Surface.Line(palette.obstacle(), 2, 2, 5));
    }

    /** The mark of an obstacle. */
    static void bar(Surface out, Palette palette, double x, double y) {
        out.fillDisc(x, y, MARK + 2, palette.paper());
        out.fillDisc(x, y, MARK, palette.obstacle());
        out.line(x - MARK * 0.55, y, x + MARK * 0.55, y, new Surface.Line(palette.paper(), 2.5));
    }

    /**
     * Places the name towards the middle of the view, away from the pads, not over another name.
     */
    private void name(String name, double x, double y) {
        if (x < -20 || y < -20 || x > view.width() + 20 || y > view.height() + 20) {
            return;
        }
        Tag tag = new Tag(name, scene.letters(NAME), palette.obstacle());
        double beside = x > view.width() / 2 ? x - tag.width() - 10 : x + 10;
        double left = Math.max(4, Math.min(view.width() - tag.width() - 4, beside));
        double above = y - MARK - 18 - tag.height();
        double below = y + MARK + 17;
        double step = tag.height() + 3;
        for (int row = 0; row < ROWS; row++) {
            for (double top : List.of(above - row * step, below + row * step)) {
                Rectangle2D place = new Rectangle2D(left, top, tag.width(), tag.height());
                boolean free =
                        top >= 4
                                && top + tag.height() <= view.height()
                                && names.stream().noneMatch(place::intersects);
                if (free) {
                    names.add(place);
                    tag.paint(out, palette, left, top);
                    return;
                }
            }
        }
    }

    /** What is painted later would cover names: the overview, the legend, what is measured. */
    private void takePlaces() {
        names.add(
                new Rectangle2D(
                        Math.max(0, view.width() - OverviewPainter.WIDTH),
                        0,
                        OverviewPainter.WIDTH,
                        OverviewPainter.WIDTH));
        names.addAll(LegendPainter.covered(scene, out));
        scene.overlay().map(o -> o.taken(scene)).ifPresent(names::addAll);
    }

    private void pill(Route route, Surface.Line line) {
        TileLayout.Box box = layout.pillAt(route.hops().get(route.hops().size() - 1).vertex());
        double w = box.width() * view.scale();
        double h = box.height() * view.scale();
        out.outlineRect(
                view.screenX(box.x()),
                view.screenY(box.y() + box.height()),
                w,
                h,
                Math.min(w, h),
                line);
    }

    /** A ring around a vertex that is selected, was found, or is pinned. */
    private void paintRing(int vertex) {
        TileLayout.Point from = layout.start(vertex);
        TileLayout.Point to = layout.end(vertex);
        boolean straight = !scene.opened().index().isTapped(vertex);
        double x = view.screenX(straight ? (from.x() + to.x()) / 2 : from.x());
        double y = view.screenY(straight ? (from.y() + to.y()) / 2 : from.y());
        pen.vertex(vertex, new Surface.Line(palette.selection(), 2));
        out.outlineDisc(x, y, RING, new Surface.Line(palette.selection(), 3));
    }

    private void disc(Hop hop, Color color) {
        TileLayout.Point at = layout.end(hop.vertex());
        out.fillDisc(view.screenX(at.x()), view.screenY(at.y()), 5, color);
    }
}
