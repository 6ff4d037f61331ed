package padward.ui.scene;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.breakout.ask.Obstacle;
import padward.breakout.ask.Route;
import padward.fabric.Fabric;
import padward.ui.design.BoxDiagram;
import padward.ui.design.OpenDesign;
import padward.ui.design.TileLayout;

/**
 * Where the obstacles of a route are on the map: on their row where switch boxes show their inside.
 */
public final class ObstaclePlaces {
    private final OpenDesign opened;
    private final Fabric fabric;
    private final TileLayout layout;
    private final Route route;
    private final boolean boxesAreOpen;

    /** The places of the obstacles of one route, at a scale in pixels a tile. */
    public ObstaclePlaces(OpenDesign opened, Route route, double scale) {
        this.opened = opened;
        this.boxesAreOpen = scale >= ZoomScales.BOX;
        this.fabric = opened.design().fabric();
        this.layout = opened.layout();
        this.route = route;
    }

    /** The vertex where an obstacle blocks the route; for one off the route, a pin of its site. */
    int vertex(Obstacle obstacle) {
        return obstacle.hops().isEmpty()
                ? fabric.site(fabric.findSite(obstacle.resource())).firstPin()
                : route.hops().get(obstacle.hops().get(0)).vertex();
    }

    private int siteOf(Obstacle obstacle) {
        return obstacle.hops().isEmpty()
                ? fabric.findSite(obstacle.resource())
                : fabric.siteOf(vertex(obstacle));
    }

    /** The rectangle of the site that it uses. */
    public Optional<TileLayout.Box> site(Obstacle obstacle) {
        int site = siteOf(obstacle);
        return site == Fabric.NOTHING ? Optional.empty() : Optional.of(layout.site(site));
    }

    /** The middle of its site or wire, or its row where that is inside an open box. */
    public TileLayout.Point of(Obstacle obstacle) {
        TileLayout.Point middle = middle(obstacle);
        int column = (int) Math.floor(middle.x());
        int row = (int) Math.floor(middle.y());
        boolean inside =
                column >= 0 && row >= 0 && column < fabric.columns() && row < fabric.rows();
        return boxesAreOpen && inside
                ? rowIn(row * fabric.columns() + column, middle, vertex(obstacle)).orElse(middle)
                : middle;
    }

    private Optional<TileLayout.Point> rowIn(int tile, TileLayout.Point at, int vertex) {
        TileLayout.Point box = layout.box(tile);
        boolean outside = Math.hypot(at.x() - box.x(), at.y() - box.y()) > TileLayout.BOX_RADIUS;
        if (outside || opened.index().isEmpty(tile)) {
            return Optional.empty();
        }
        BoxDiagram diagram = opened.diagram(tile);
        int output = diagram.outputRow(vertex);
        int input = diagram.inputRow(vertex);
        if (output != Fabric.NOTHING) {
            return Optional.of(diagram.outputAt(output));
        }
        return input == Fabric.NOTHING ? Optional.empty() : Optional.of(diagram.inputAt(input));
    }

    private TileLayout.Point middle(Obstacle obstacle) {
        Optional<TileLayout.Box> box = site(obstacle);
        if (box.isPresent()) {
            return new TileLayout.Point(box.get().centreX(), box.get().centreY());
        }
        int vertex = vertex(obstacle);
        if (fabric.listsTaps(vertex) && !obstacle.hops().isEmpty()) {
            return onUsedPart(obstacle.hops().get(0));
        }
        TileLayout.Point from = layout.start(vertex);
        TileLayout.Point to = layout.end(vertex);
        return new TileLayout.Point((from.x() + to.x()) / 2, (from.y() + to.y()) / 2);
    }

    /** The middle of the part of a wire with taps that the route uses. */
    private TileLayout.Point onUsedPart(int hop) {
        int vertex = route.hops().get(hop).vertex();
        int[] taps = fabric.tapTiles(vertex);
        int enters =
                hop == 0
                        ? taps[0]
                        : layout.meeting(route.hops().get(hop - 1).vertex(), vertex).toTile();
        int leaves =
                hop == route.hops().size() - 1
                        ? taps[taps.length - 1]
                        : layout.meeting(vertex, route.hops().get(hop + 1).vertex()).fromTile();
        List<TileLayout.Point> middles = new ArrayList<>();
        layout.forEachLeg(
                vertex,
                enters,
                leaves,
                (x0, y0, x1, y1) ->
                        middles.add(new TileLayout.Point((x0 + x1) / 2, (y0 + y1) / 2)));
        return middles.isEmpty() ? layout.entry(vertex, enters) : middles.get(middles.size() / 2);
    }

    /** The first obstacle within a distance, in tiles, from a point. */
    public Optional<Obstacle> near(List<Obstacle> obstacles, double x, double y, double reach) {
        return obstacles.stream()
                .filter(
                        o -> {
                            TileLayout.Point at = of(o);
                            boolean onSite = site(o).filter(b -> b.contains(x, y)).isPresent();
                            return onSite || Math.hypot(at.x() - x, at.y() - y) <= reach;
                        })
                .findFirst();
    }
}
