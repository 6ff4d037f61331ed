package padward.ui.paint;

import it.unimi.dsi.fastutil.ints.Int2ObjectOpenHashMap;
import java.util.Optional;
import padward.design.Net;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.ui.design.TileLayout;
import padward.ui.design.TileRange;
import padward.ui.design.TreeParents;
import padward.ui.draw.Marks;
import padward.ui.draw.Palette;
import padward.ui.draw.Raster;
import padward.ui.scene.MapLayer;
import padward.ui.scene.MapScene;
import padward.ui.scene.ZoomScales;

/**
 * Paints the switches of boxes and those between a box and its pins: those that nets use where
 * names are shown, all of them when zoomed in further and there are few enough to tell apart.
 */
final class SwitchPainter {
    /** A box with more switches is a blot when all are drawn: then only used ones are. */
    private static final int MOST_LEGIBLE = 400;

    /** Beside a route, which is to be followed, even fewer are drawn. */
    private static final int MOST_BESIDE_ROUTE = 60;

    private final MapScene scene;
    private final Marks marks;
    private final Fabric fabric;
    private final TileLayout layout;

    /** Ends of the vertices from which switches lead, kept because each leads to several. */
    private final Int2ObjectOpenHashMap<TileLayout.Point> ends = new Int2ObjectOpenHashMap<>();

    SwitchPainter(MapScene scene, Marks marks) {
        this.scene = scene;
        this.marks = marks;
        this.fabric = scene.opened().design().fabric();
        this.layout = scene.opened().layout();
    }

    void paint(TileRange seen) {
        Palette colors = scene.palette();
        if (scene.scale() >= ZoomScales.SWITCHES) {
            int free = Raster.pixel(colors.tile().interpolate(colors.box(), 0.28));
            EdgeCursor into = fabric.edgesIn();
            boolean routeShown = scene.route().isPresent() && scene.shows(MapLayer.ROUTE);
            int most = routeShown ? MOST_BESIDE_ROUTE : MOST_LEGIBLE;
            seen.forEach(
                    tile -> {
                        if (switchesIn(tile, into) <= most) {
                            paintAll(tile, into, free);
                        }
                    });
        }
        if (scene.scale() >= ZoomScales.NAMES && scene.shows(MapLayer.OCCUPANCY)) {
            int used = Raster.pixel(scene.usedWires());
            seen.forEach(tile -> paintUsed(tile, used));
        }
    }

    /** How many connections lead to what can be entered in a tile, as far as it matters. */
    private int switchesIn(int tile, EdgeCursor into) {
        int[] count = {0};
        scene.opened()
                .index()
                .forEachIn(
                        tile,
                        vertex -> {
                            into.reset(vertex);
                            while (count[0] <= MOST_LEGIBLE && into.next()) {
                                count[0]++;
                            }
                        });
        return count[0];
    }

    private void paintAll(int tile, EdgeCursor into, int pixel) {
        scene.opened()
                .index()
                .forEachIn(
                        tile,
                        vertex -> {
                            into.reset(vertex);
                            while (into.next()) {
                                if (into.kind() != EdgeKind.PASS_THROUGH) {
                                    connection(into.other(), vertex, tile, 1, pixel);
                                }
                            }
                        });
    }

    private void paintUsed(int tile, int pixel) {
        TreeParents parents = scene.opened().parents();
        scene.opened()
                .index()
                .forEachIn(
                        tile,
                        vertex -> {
                            Optional<Net> net =
                                    scene.opened().design().occupancy().findNetOn(vertex);
                            int parent =
                                    net.map(n -> parents.parent(n, vertex)).orElse(Fabric.NOTHING);
                            if (parent != Fabric.NOTHING) {
                                used(parent, vertex, tile, pixel);
                            }
                        });
    }

    private void used(int from, int to, int tile, int pixel) {
        TileLayout.Meeting where = layout.meeting(from, to);
        if (!scene.opened().index().anyTapped() || where.toTile() == tile) {
            layout.connection(
                    from,
                    to,
                    where,
                    (x0, y0, x1, y1) -> scene.line(marks, x0, y0, x1, y1, 2, pixel));
        }
    }

    /** Where no wire has taps all that leads to a vertex is in its tile; else only what is. */
    private void connection(int from, int to, int tile, int wide, int pixel) {
        if (!scene.opened().index().anyTapped()) {
            line(end(from), layout.start(to), wide, pixel);
            return;
        }
        TileLayout.Meeting where = layout.meeting(from, to);
        if (where.toTile() == tile) {
            line(layout.exit(from, where.fromTile()), layout.entry(to, tile), wide, pixel);
        }
    }

    private TileLayout.Point end(int vertex) {
        return ends.computeIfAbsent(vertex, layout::end);
    }

    private void line(TileLayout.Point from, TileLayout.Point to, int wide, int pixel) {
        scene.line(marks, from.x(), from.y(), to.x(), to.y(), wide, pixel);
    }
}
