package padward.ui;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.PinDirection;
import padward.fabric.SiteView;
import padward.fabric.VertexKind;

/**
 * Where things stand inside a tile, in world units. The switch box is in the lower left part, sites
 * fill the upper right; in a rim tile the IO register sites stand between the box and the pads, and
 * the pads on the rim. Worked out from the fabric alone, so every view draws the same.
 */
final class TileLayout {
    /** A rectangle: lower left corner and size. */
    record Box(double x, double y, double width, double height) {
        double centreX() {
            return x + width / 2;
        }

        double centreY() {
            return y + height / 2;
        }
    }

    /** A point. */
    record Point(double x, double y) {}

    static final double BOX_X = 0.3;
    static final double BOX_Y = 0.3;
    static final double BOX_RADIUS = 0.13;
    private static final double RIM_SHIFT = 0.28;
    private static final double LANE = 0.011;
    private static final int LANES = 18;

    private final Fabric fabric;
    private final Int2IntOpenHashMap padByVertex = new Int2IntOpenHashMap();
    private final Int2IntOpenHashMap padOrdinal = new Int2IntOpenHashMap();
    private final Int2IntOpenHashMap padsInTile = new Int2IntOpenHashMap();
    private final TileIndex index;

    TileLayout(Fabric fabric, TileIndex index) {
        this.fabric = fabric;
        this.index = index;
        for (int i = 0; i < fabric.pads().size(); i++) {
            Pad pad = fabric.pads().get(i);
            padByVertex.put(pad.vertex(), i);
            padOrdinal.put(i, padsInTile.addTo(pad.tile(), 1));
        }
    }

    /** Direction in which the rim lies from a tile: (-1, 0) at the left; (0, 0) inside. */
    private Point outward(int tile) {
        int x = fabric.column(tile);
        int y = fabric.row(tile);
        if (x == 0) {
            return new Point(-1, 0);
        }
        if (x == fabric.columns() - 1) {
            return new Point(1, 0);
        }
        if (y == 0) {
            return new Point(0, -1);
        }
        return y == fabric.rows() - 1 ? new Point(0, 1) : new Point(0, 0);
    }

    boolean isRim(int tile) {
        return padsInTile.containsKey(tile);
    }

    /**
     * Middle of a tile's switch box. On the rim it moves inwards, to leave room before the pads.
     */
    Point box(int tile) {
        int column = fabric.column(tile);
        int row = fabric.row(tile);
        return new Point(
                column + inTile(column, fabric.columns(), BOX_X),
                row + inTile(row, fabric.rows(), BOX_Y));
    }

    /** Boxes of one row or column stay in line, corners of the fabric included. */
    private static double inTile(int place, int size, double usual) {
        if (place == 0) {
            return 0.5 + RIM_SHIFT;
        }
        return place == size - 1 ? 0.5 - RIM_SHIFT : usual;
    }

    /** A pad's pill. */
    Box pad(int padIndex) {
        int tile = fabric.pads().get(padIndex).tile();
        int count = padsInTile.get(tile);
        double along = (padOrdinal.get(padIndex) + 0.5) / count;
        Point out = outward(tile);
        double size = Math.min(0.3, 0.8 / count);
        double middleX = fabric.column(tile) + (out.x() == 0 ? along : 0.5 + 0.72 * out.x());
        double middleY = fabric.row(tile) + (out.y() == 0 ? along : 0.5 + 0.72 * out.y());
        if (out.x() == 0 && out.y() == 0) {
            middleY = fabric.row(tile) + 0.85;
        }
        double wide = out.x() == 0 ? size : 0.32;
        double high = out.x() == 0 ? 0.32 : size * 0.8;
        return new Box(middleX - wide / 2, middleY - high / 2, wide, high);
    }

    /** The pill of the pad at a vertex. */
    Box pillAt(int vertex) {
        return pad(padByVertex.get(vertex));
    }

    /** The point of a pad's pill that faces the chip. */
    Point innerEdge(int vertex) {
        Box pill = pillAt(vertex);
        Point out = outward(fabric.tile(vertex));
        return new Point(
                pill.centreX() - out.x() * pill.width() / 2,
                pill.centreY() - out.y() * pill.height() / 2);
    }

    /** A site's rectangle. */
    Box site(int site) {
        int tile = fabric.site(site).tile();
        int first = fabric.firstSite(tile);
        int count = fabric.firstSite(tile + 1) - first;
        int place = site - first;
        if (isRim(tile)) {
            return rimSite(tile, place, count);
        }
        int columns = (int) Math.ceil(Math.sqrt(count));
        int rows = (count + columns - 1) / columns;
        double cellWide = 0.42 / columns;
        double cellHigh = 0.46 / rows;
        double x = fabric.column(tile) + 0.53 + (place % columns) * cellWide;
        double y = fabric.row(tile) + 0.49 + (rows - 1 - place / columns) * cellHigh;
        return new Box(x, y, cellWide * 0.84, cellHigh * 0.84);
    }

    private Box rimSite(int tile, int place, int count) {
        Point out = outward(tile);
        double along = (place + 0.5) / count;
        double size = 0.8 / count;
        double middleX = fabric.column(tile) + (out.x() == 0 ? along : 0.5 + 0.3 * out.x());
        double middleY = fabric.row(tile) + (out.x() == 0 ? 0.5 + 0.3 * out.y() : along);
        double wide = out.x() == 0 ? size : 0.24;
        double high = out.x() == 0 ? 0.24 : size;
        return new Box(middleX - wide / 2, middleY - high / 2, wide, high);
    }

    /** Where a wire leaves its tile's box; other vertices stand where {@link #end} says. */
    Point start(int vertex) {
        return fabric.kind(vertex) == VertexKind.WIRE
                ? wireEnd(vertex, fabric.tile(vertex))
                : end(vertex);
    }

    /** Where a wire arrives, where a pin or a pad stands. */
    Point end(int vertex) {
        return switch (fabric.kind(vertex)) {
            case WIRE -> wireEnd(vertex, fabric.headTile(vertex));
            case PIN -> pin(vertex);
            case PAD -> {
                Box pill = pad(padByVertex.get(vertex));
                yield new Point(pill.centreX(), pill.centreY());
            }
        };
    }

    /** Wires of one tile run in lanes beside each other, so that they can be told apart. */
    private Point wireEnd(int vertex, int tile) {
        int from = fabric.tile(vertex);
        int to = fabric.headTile(vertex);
        int lane = index.placeOf(vertex) % LANES - LANES / 2;
        Point middle = box(tile);
        boolean across = fabric.row(from) == fabric.row(to);
        return across
                ? new Point(middle.x(), middle.y() + lane * LANE)
                : new Point(middle.x() + lane * LANE, middle.y());
    }

    private Point pin(int vertex) {
        SiteView site = fabric.site(fabric.siteOf(vertex));
        Box box = site(site.id());
        int place = vertex - site.firstPin();
        PinDirection direction = site.pins().get(place).direction();
        int same = 0;
        int before = 0;
        for (int i = 0; i < site.pins().size(); i++) {
            if (site.pins().get(i).direction() == direction) {
                before += i < place ? 1 : 0;
                same++;
            }
        }
        double along = (before + 0.5) / same;
        Point out = isRim(site.tile()) ? outward(site.tile()) : new Point(1, 0);
        int sense = direction == PinDirection.OUT ? 1 : -1;
        if (out.x() != 0) {
            return new Point(
                    box.centreX() + sense * out.x() * box.width() / 2,
                    box.y() + box.height() * along);
        }
        return new Point(
                box.x() + box.width() * along, box.centreY() + sense * out.y() * box.height() / 2);
    }
}
