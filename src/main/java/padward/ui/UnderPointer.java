package padward.ui;

import java.util.Optional;
import padward.breakout.WhyText;
import padward.fabric.Corner;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.SiteView;
import padward.fabric.VertexKind;

/** What the pointer is on: a site, a pad, a wire or a pin, with what holds it. */
final class UnderPointer {
    /** How near the pointer must be, pixels. */
    private static final double REACH = 5;

    /** How near the pointer must be to a pad's middle, tiles. */
    private static final double PAD_REACH = 0.3;

    private UnderPointer() {}

    /** The thing's name and state; empty where there is nothing, or all is too small. */
    static Optional<String> text(Opened opened, double x, double y, double scale) {
        Fabric fabric = opened.design().fabric();
        int column = (int) Math.floor(x);
        int row = (int) Math.floor(y);
        if (column < 0 || row < 0 || column >= fabric.columns() || row >= fabric.rows()) {
            // Pads stand out over the rim.
            return nearest(opened, column, row, x, y, PAD_REACH);
        }
        int tile = row * fabric.columns() + column;
        if (scale < MapPainter.PARTS) {
            long percent = Math.round(100 * opened.index().fill(tile));
            return Optional.of(
                    fabric.tileName(tile)
                            + ", "
                            + fabric.tileType(tile)
                            + ", "
                            + percent
                            + " % of its wires held");
        }
        Optional<String> site = site(opened, tile, x, y);
        if (site.isPresent()) {
            return site;
        }
        return scale >= MapPainter.WIRES
                ? nearest(opened, column, row, x, y, REACH / scale)
                : Optional.of(fabric.tileName(tile) + ", " + fabric.tileType(tile));
    }

    private static Optional<String> site(Opened opened, int tile, double x, double y) {
        Fabric fabric = opened.design().fabric();
        for (int id = fabric.firstSite(tile); id < fabric.firstSite(tile + 1); id++) {
            TileLayout.Box box = opened.layout().site(id);
            boolean inside =
                    x >= box.x()
                            && x <= box.x() + box.width()
                            && y >= box.y()
                            && y <= box.y() + box.height();
            if (inside) {
                SiteView site = fabric.site(id);
                String cell =
                        opened.design()
                                .occupancy()
                                .findCellOn(id)
                                .map(c -> "cell " + c.name() + ", " + c.kind())
                                .orElse("free");
                return Optional.of("site " + site.name() + ", " + site.kind() + ": " + cell);
            }
        }
        return Optional.empty();
    }

    /** The nearest wire or pad of the tiles around. */
    private static Optional<String> nearest(
            Opened opened, int column, int row, double x, double y, double reach) {
        Fabric fabric = opened.design().fabric();
        int best = Fabric.NOTHING;
        double least = reach;
        for (int dy = -1; dy <= 1; dy++) {
            for (int dx = -1; dx <= 1; dx++) {
                int c = column + dx;
                int r = row + dy;
                if (c < 0 || r < 0 || c >= fabric.columns() || r >= fabric.rows()) {
                    continue;
                }
                int tile = r * fabric.columns() + c;
                for (int i = opened.index().first(tile); i < opened.index().first(tile + 1); i++) {
                    int vertex = opened.index().vertex(i);
                    if (fabric.kind(vertex) != VertexKind.PIN) {
                        double distance =
                                distance(
                                        x,
                                        y,
                                        opened.layout().start(vertex),
                                        opened.layout().end(vertex));
                        if (distance < least) {
                            least = distance;
                            best = vertex;
                        }
                    }
                }
            }
        }
        return best == Fabric.NOTHING ? Optional.empty() : Optional.of(text(opened, best));
    }

    private static String text(Opened opened, int vertex) {
        Fabric fabric = opened.design().fabric();
        EdgeCursor edges = fabric.edgesOut();
        edges.reset(vertex);
        int count = 0;
        int least = Integer.MAX_VALUE;
        while (edges.next()) {
            count++;
            least = Math.min(least, edges.delayPs(Corner.SLOW));
        }
        String holder =
                opened.design().occupancy().findOccupant(vertex).map(WhyText::who).orElse("free");
        String drives =
                count == 0
                        ? ""
                        : String.format(
                                ", leads to %d others, from %.3f ns on", count, least / 1000.0);
        return fabric.vertexName(vertex) + ": " + holder + drives;
    }

    /** Distance of a point from a line between two points. */
    private static double distance(double x, double y, TileLayout.Point a, TileLayout.Point b) {
        double dx = b.x() - a.x();
        double dy = b.y() - a.y();
        double length = dx * dx + dy * dy;
        double at = length == 0 ? 0 : ((x - a.x()) * dx + (y - a.y()) * dy) / length;
        double part = Math.max(0, Math.min(1, at));
        return Math.hypot(x - a.x() - part * dx, y - a.y() - part * dy);
    }
}
