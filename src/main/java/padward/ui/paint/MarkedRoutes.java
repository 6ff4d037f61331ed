package padward.ui.paint;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javafx.geometry.Rectangle2D;
import padward.breakout.ask.Hop;
import padward.breakout.ask.Obstacle;
import padward.breakout.ask.Route;
import padward.ui.design.TileLayout;
import padward.ui.draw.Palette;
import padward.ui.draw.Surface;
import padward.ui.draw.Tag;
import padward.ui.scene.LegendEntry;
import padward.ui.scene.MapOverlay;
import padward.ui.scene.MapPen;
import padward.ui.scene.MapScene;
import padward.ui.scene.ObstaclePlaces;

/**
 * Paints several routes together, each with a mark and its name at the pad; what blocks one has the
 * mark of an obstacle.
 *
 * @param lines the routes
 */
public record MarkedRoutes(List<Line> lines) implements MapOverlay {
    private static final double LETTERS = 12;
    private static final double BESIDE = 14;

    /** More names than this would only cover each other. */
    private static final int MOST_NAMES = 24;

    /** More lines than this would make the legend cover the map. */
    private static final int MOST_EXPLAINED = 12;

    /** How much wider the paper below a line is. */
    private static final double CASING = 2.5;

    /** Copies the lines. */
    public MarkedRoutes {
        lines = List.copyOf(lines);
    }

    /**
     * What blocks a route.
     *
     * @param route the route
     * @param obstacles what uses wires or sites that it needs
     */
    public record Block(Route route, List<Obstacle> obstacles) {
        /** Copies the obstacles. */
        public Block {
            obstacles = List.copyOf(obstacles);
        }
    }

    /**
     * One of the routes.
     *
     * @param vertices its vertices, the last one that of the pad
     * @param name what it is called
     * @param mark its mark
     * @param block what blocks it; empty when it is open
     */
    public record Line(List<Integer> vertices, String name, RouteMark mark, Optional<Block> block) {
        /** Copies the vertices. */
        public Line {
            vertices = List.copyOf(vertices);
        }

        /** Of an open route. */
        public Line(Route route, String name, RouteMark mark) {
            this(vertices(route), name, mark, Optional.empty());
        }

        /** Of a blocked route. */
        public Line(Route route, String name, RouteMark mark, List<Obstacle> obstacles) {
            this(vertices(route), name, mark, Optional.of(new Block(route, obstacles)));
        }

        private static List<Integer> vertices(Route route) {
            return route.hops().stream().map(Hop::vertex).toList();
        }

        private int first() {
            return vertices.get(0);
        }

        private int last() {
            return vertices.get(vertices.size() - 1);
        }

        private int[] toArray() {
            return vertices.stream().mapToInt(v -> v).toArray();
        }
    }

    @Override
    public void paint(MapScene scene, Surface out) {
        Palette colors = scene.palette();
        MapPen pen = new MapPen(scene, out);
        TileLayout layout = scene.opened().layout();
        for (Line line : lines) {
            Surface.Line stroke = line.mark().line(colors);
            pen.route(line.toArray(), new Surface.Line(colors.paper(), stroke.width() + CASING));
            pen.route(line.toArray(), stroke);
        }
        for (Line line : lines) {
            shape(line, layout.end(line.first()), scene, out);
            shape(line, layout.innerEdge(line.last()), scene, out);
        }
        for (Line line : lines) {
            line.block().ifPresent(b -> obstacles(b, scene, out));
        }
        // Legends lie above everything and would cut a name.
        List<Rectangle2D> names = new ArrayList<>(LegendPainter.covered(scene, out));
        scene.overlay().map(o -> o.taken(scene)).ifPresent(names::addAll);
        for (Line line : lines.subList(0, Math.min(MOST_NAMES, lines.size()))) {
            name(line, layout.pillAt(line.last()), scene, out, names);
        }
    }

    private static void obstacles(Block block, MapScene scene, Surface out) {
        ObstaclePlaces places = new ObstaclePlaces(scene.opened(), block.route(), scene.scale());
        for (Obstacle obstacle : block.obstacles()) {
            TileLayout.Point at = places.of(obstacle);
            double x = scene.view().screenX(at.x());
            RoutePainter.bar(out, scene.palette(), x, scene.view().screenY(at.y()));
        }
    }

    private static void shape(Line line, TileLayout.Point at, MapScene scene, Surface out) {
        line.mark()
                .paintShape(
                        out,
                        scene.palette(),
                        scene.view().screenX(at.x()),
                        scene.view().screenY(at.y()));
    }

    /** A name outside its pad, or inside where there is no room; not over another or the legend. */
    private static void name(
            Line line, TileLayout.Box pad, MapScene scene, Surface out, List<Rectangle2D> names) {
        double x = scene.view().screenX(pad.centreX());
        double y = scene.view().screenY(pad.centreY());
        Tag tag =
                new Tag(
                        line.name(),
                        scene.letters(LETTERS),
                        line.mark().line(scene.palette()).color());
        double before = x - tag.width() - BESIDE;
        double behind = x + BESIDE;
        boolean left = x < scene.view().width() / 2;
        Rectangle2D view = new Rectangle2D(0, 0, scene.view().width(), scene.view().height());
        for (double at : left ? new double[] {before, behind} : new double[] {behind, before}) {
            Rectangle2D place =
                    new Rectangle2D(at, y - tag.height() / 2, tag.width(), tag.height());
            if (view.contains(place) && names.stream().noneMatch(place::intersects)) {
                names.add(place);
                tag.paint(out, scene.palette(), place.getMinX(), place.getMinY());
                return;
            }
        }
    }

    @Override
    public List<LegendEntry> legend(Palette colors) {
        return lines.stream()
                .limit(MOST_EXPLAINED)
                .map(
                        line ->
                                new LegendEntry(
                                        "route of "
                                                + line.name()
                                                + (line.block().isPresent() ? " (blocked)" : ""),
                                        (out, l, r, y) ->
                                                line.mark().paintSample(out, colors, l, r, y)))
                .toList();
    }
}
