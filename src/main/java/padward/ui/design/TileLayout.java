package padward.ui.design;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import padward.fabric.Fabric;
import padward.fabric.PinDirection;
import padward.fabric.SiteView;
import padward.fabric.VertexKind;

/**
 * Where things are drawn inside a tile, in world units. The switch box is in the lower left part,
 * sites fill the upper right; in a rim tile the IO register sites are between the box and the pads,
 * and the pads are on the rim. Depends on the fabric alone, so every view draws the same.
 */
public final class TileLayout {
    /** A rectangle: lower left corner and size. */
    public record Box(double x, double y, double width, double height) {
        /** World units. */
        public double centreX() {
            return x + width / 2;
        }

        /** World units. */
        public double centreY() {
            return y + height / 2;
        }

        /** Whether a place is in the box, including its edges. */
        public boolean contains(double atX, double atY) {
            return atX >= x && atX <= x + width && atY >= y && atY <= y + height;
        }
    }

    /** A point. */
    public record Point(double x, double y) {}

    static final double BOX_X = 0.3;
    static final double BOX_Y = 0.3;

    /** Radius of a switch box, world units. */
    public static final double BOX_RADIUS = 0.13;

    private static final double RIM_SHIFT = 0.28;

    /** Largest distance between two lanes. */
    private static final double WIDEST_LANE = 0.011;

    /** Share of a box's width that all lanes together may take. */
    private static final double CHANNEL = 0.9;

    /** Distance from the middle of a box to the ends of a wire that stays in its tile. */
    private static final double INNER = 0.5 * BOX_RADIUS;

    /** Parts of a frame's width or height between its parts, and above them for its name. */
    private static final double FRAME_GAP = 0.05;

    private static final double FRAME_HEAD = 0.15;

    /** Where connections of pins run, in a tile: this far beside a site, and at this height. */
    private static final double BESIDE = 0.007;

    private static final double BELOW_SITES = 0.467;
    private static final double LEFT_OF_SITES = 0.51;

    private final Fabric fabric;
    private final TileIndex index;
    private final PadIndex pads;
    private final SiteParts parts;
    private final double[] boxX;
    private final double[] boxY;

    /** Distance of each lane from the middle of its boxes. */
    private final double[] offsets;

    /** Distance from the middle of a box to where each lane meets its rim, along the lane. */
    private final double[] depths;

    TileLayout(Fabric fabric, TileIndex index) {
        this.fabric = fabric;
        this.index = index;
        this.pads = new PadIndex(fabric);
        this.parts = new SiteParts(fabric);
        this.boxX = middles(fabric.columns(), BOX_X);
        this.boxY = middles(fabric.rows(), BOX_Y);
        int lanes = index.lanes().count();
        double apart = Math.min(WIDEST_LANE, 2 * BOX_RADIUS * CHANNEL / lanes);
        this.offsets = new double[lanes];
        this.depths = new double[lanes];
        for (int lane = 0; lane < lanes; lane++) {
            double offset = (lane - (lanes - 1) / 2.0) * apart;
            offsets[lane] = offset;
            depths[lane] = Math.sqrt(Math.max(0, BOX_RADIUS * BOX_RADIUS - offset * offset));
        }
    }

    private static double[] middles(int size, double usual) {
        double[] result = new double[size];
        Arrays.setAll(result, place -> place + inTile(place, size, usual));
        return result;
    }

    /** The pads by tile and by vertex. */
    public PadIndex pads() {
        return pads;
    }

    /** Direction from a tile to the rim of the fabric: (-1, 0) at the left; (0, 0) inside. */
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

    /** Whether a tile has pads, as those at the edge of the fabric do. */
    public boolean isRim(int tile) {
        return pads.countIn(tile) > 0;
    }

    /**
     * Middle of a tile's switch box. On the rim it is shifted inwards, to leave room for the pads.
     */
    public Point box(int tile) {
        return new Point(boxX[fabric.column(tile)], boxY[fabric.row(tile)]);
    }

    /** Boxes of one row or column stay in line, also in the corners of the fabric. */
    private static double inTile(int place, int size, double usual) {
        if (place == 0) {
            return 0.5 + RIM_SHIFT;
        }
        return place == size - 1 ? 0.5 - RIM_SHIFT : usual;
    }

    /** A pad's pill. */
    public Box pad(int padIndex) {
        int tile = fabric.pads().get(padIndex).tile();
        int count = pads.countIn(tile);
        double along = (pads.ordinal(padIndex) + 0.5) / count;
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
    public Box pillAt(int vertex) {
        return pad(pads.at(vertex));
    }

    /** The point of a pad's pill that faces the fabric. */
    public Point innerEdge(int vertex) {
        Box pill = pillAt(vertex);
        Point out = outward(fabric.tile(vertex));
        return new Point(
                pill.centreX() - out.x() * pill.width() / 2,
                pill.centreY() - out.y() * pill.height() / 2);
    }

    /** A site's rectangle. */
    public Box site(int site) {
        return site(site, fabric.site(site).tile());
    }

    /** The rectangle of a site of a known tile; around all its tiles, if it has several. */
    public Box site(int site, int tile) {
        Box own = slot(tile, site - fabric.firstSite(tile));
        if (!fabric.hasWideSites()) {
            return own;
        }
        Box all = own;
        for (int other : fabric.site(site).moreTiles()) {
            int before = fabric.firstSite(other + 1) - fabric.firstSite(other);
            all = around(all, slot(other, before + fabric.sitesReaching(other).indexOf(site)));
        }
        return all;
    }

    private static Box around(Box one, Box other) {
        double x = Math.min(one.x(), other.x());
        double y = Math.min(one.y(), other.y());
        return new Box(
                x,
                y,
                Math.max(one.x() + one.width(), other.x() + other.width()) - x,
                Math.max(one.y() + one.height(), other.y() + other.height()) - y);
    }

    /** Takes a site and its rectangle. */
    public interface SiteUse {
        void see(int site, Box box);
    }

    /** Visits the sites of some tiles, and those that extend over them from elsewhere. */
    public void forEachSite(TileRange tiles, SiteUse use) {
        tiles.forEach(
                tile -> {
                    int end = fabric.firstSite(tile + 1);
                    for (int site = fabric.firstSite(tile); site < end; site++) {
                        use.see(site, site(site, tile));
                    }
                    for (int site : fabric.sitesReaching(tile)) {
                        int home = fabric.site(site).tile();
                        if (!tiles.contains(home)) {
                            use.see(site, site(site, home));
                        }
                    }
                });
    }

    /** A place for a site in a tile; sites of other tiles come after the tile's own. */
    private Box slot(int tile, int place) {
        SiteParts.OfTile sites = parts.in(tile);
        Box whole = whole(tile, place, sites);
        return sites.anyParts() && sites.parts()[place] > 1
                ? inside(whole, sites.part()[place], sites.parts()[place])
                : whole;
    }

    /** A place for the whole of a site in a tile. */
    private Box whole(int tile, int place, SiteParts.OfTile sites) {
        int whole = sites.whole()[place];
        if (isRim(tile)) {
            return rimSite(tile, whole, sites.wholes());
        }
        // Parts are side by side: a site with parts needs more width than height.
        double share = sites.anyParts() ? 2.0 : 1.0;
        int columns = (int) Math.ceil(Math.sqrt(sites.wholes() / share));
        int rows = (sites.wholes() + columns - 1) / columns;
        double cellWide = 0.42 / columns;
        double cellHigh = 0.46 / rows;
        double x = fabric.column(tile) + 0.53 + (whole % columns) * cellWide;
        double y = fabric.row(tile) + 0.49 + (rows - 1 - whole / columns) * cellHigh;
        double filled = sites.anyParts() ? 0.92 : 0.84;
        return new Box(x, y, cellWide * filled, cellHigh * filled);
    }

    /** A part inside the frame of its site, below its name; parts are in rows. */
    private static Box inside(Box frame, int part, int parts) {
        int columns = parts <= 3 ? parts : (int) Math.ceil(Math.sqrt(parts));
        int rows = (parts + columns - 1) / columns;
        double cellWide = frame.width() * (1 - FRAME_GAP) / columns;
        double cellHigh = frame.height() * (1 - FRAME_GAP - FRAME_HEAD) / rows;
        double gapX = frame.width() * FRAME_GAP;
        double gapY = frame.height() * FRAME_GAP;
        return new Box(
                frame.x() + gapX + part % columns * cellWide,
                frame.y() + gapY + (rows - 1 - part / columns) * cellHigh,
                cellWide - gapX,
                cellHigh - gapY);
    }

    /** The frame around the parts of a site, over all its tiles; empty when it has no parts. */
    public Optional<Box> frame(int site) {
        SiteView view = fabric.site(site);
        if (!view.isPart()) {
            return Optional.empty();
        }
        Box all = frameIn(view.tile(), site);
        for (int other : view.moreTiles()) {
            all = around(all, frameIn(other, site));
        }
        return Optional.of(all);
    }

    private Box frameIn(int tile, int site) {
        int own = fabric.firstSite(tile + 1) - fabric.firstSite(tile);
        int place =
                fabric.site(site).tile() == tile
                        ? site - fabric.firstSite(tile)
                        : own + fabric.sitesReaching(tile).indexOf(site);
        return whole(tile, place, parts.in(tile));
    }

    /** Visits the frames around parts in some tiles, each with the first of its parts. */
    public void forEachFrame(TileRange tiles, SiteUse use) {
        tiles.forEach(
                tile -> {
                    SiteParts.OfTile sites = parts.in(tile);
                    int own = fabric.firstSite(tile + 1) - fabric.firstSite(tile);
                    for (int place = 0; sites.anyParts() && place < sites.whole().length; place++) {
                        if (sites.part()[place] > 0) {
                            continue;
                        }
                        int site =
                                place < own
                                        ? fabric.firstSite(tile) + place
                                        : fabric.sitesReaching(tile).get(place - own);
                        boolean once = place < own || !tiles.contains(fabric.site(site).tile());
                        if (once) {
                            frame(site).ifPresent(box -> use.see(site, box));
                        }
                    }
                });
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

    /** Where a wire leaves its tile's box; for other vertices the same as {@link #end}. */
    public Point start(int vertex) {
        if (fabric.kind(vertex) != VertexKind.WIRE) {
            return end(vertex);
        }
        if (index.isTapped(vertex)) {
            return at(vertex, fabric.tapTiles(vertex)[0]);
        }
        double[] ends = new double[4];
        wire(vertex, fabric.tile(vertex), ends);
        return new Point(ends[0], ends[1]);
    }

    /** Where a wire ends; where a pin or pad is. */
    public Point end(int vertex) {
        return switch (fabric.kind(vertex)) {
            case WIRE -> {
                if (index.isTapped(vertex)) {
                    int[] taps = fabric.tapTiles(vertex);
                    yield at(vertex, taps[taps.length - 1]);
                }
                double[] ends = new double[4];
                wire(vertex, fabric.tile(vertex), ends);
                yield new Point(ends[2], ends[3]);
            }
            case PIN -> pin(vertex);
            case PAD -> {
                Box pill = pillAt(vertex);
                yield new Point(pill.centreX(), pill.centreY());
            }
        };
    }

    /**
     * Both ends of a wire that starts in a known tile, without creating points: x and y of its
     * start, on the rim of its box, then of its end. Wires along a row or a column keep to their
     * lane; one that stays in its tile is a chord inside the box.
     */
    public void wire(int wire, int tile, double[] ends) {
        int head = index.head(wire);
        int lane = index.lanes().of(wire);
        int column = fabric.column(tile);
        int row = fabric.row(tile);
        if (head == tile) {
            double angle = 2.4 * lane;
            ends[0] = boxX[column] + INNER * Math.cos(angle);
            ends[1] = boxY[row] + INNER * Math.sin(angle);
            ends[2] = boxX[column] + INNER * Math.cos(angle + 1.2);
            ends[3] = boxY[row] + INNER * Math.sin(angle + 1.2);
            return;
        }
        int farColumn = fabric.column(head);
        int farRow = fabric.row(head);
        int place = lane % offsets.length;
        if (row == farRow) {
            double depth = farColumn > column ? depths[place] : -depths[place];
            ends[0] = boxX[column] + depth;
            ends[1] = boxY[row] + offsets[place];
            ends[2] = boxX[farColumn] - depth;
            ends[3] = ends[1];
        } else {
            boolean straight = column == farColumn;
            double depth = !straight ? 0 : farRow > row ? depths[place] : -depths[place];
            ends[0] = boxX[column] + offsets[place];
            ends[1] = boxY[row] + depth;
            ends[2] = boxX[farColumn] + offsets[place];
            ends[3] = boxY[farRow] - depth;
        }
    }

    /** Takes a straight line between two places. */
    public interface Leg {
        void draw(double fromX, double fromY, double toX, double toY);
    }

    /** Draws a wire, or nothing for other vertices: one line, or its legs from tap to tap. */
    public void forEachLeg(int wire, Leg leg) {
        if (index.head(wire) == Fabric.NOTHING) {
            return;
        }
        if (!index.isTapped(wire)) {
            straight(wire, leg);
            return;
        }
        int[] taps = fabric.tapTiles(wire);
        TapLine line = TapLine.of(fabric, taps);
        if (isOneLine(line, taps)) {
            drawStraight(wire, taps, line, taps[0], taps[taps.length - 1], leg);
            return;
        }
        WirePath path = WirePath.of(fabric, taps);
        for (int place = 1; place < path.size(); place++) {
            draw(wire, path, path.parent(place), place, leg);
        }
    }

    private void straight(int wire, Leg leg) {
        double[] ends = new double[4];
        wire(wire, fabric.tile(wire), ends);
        leg.draw(ends[0], ends[1], ends[2], ends[3]);
    }

    /** Draws the part of a wire between two of its taps. */
    public void forEachLeg(int wire, int fromTile, int toTile, Leg leg) {
        if (index.head(wire) == Fabric.NOTHING) {
            return;
        }
        if (!index.isTapped(wire)) {
            boolean whole = fromTile != toTile || index.head(wire) == fabric.tile(wire);
            if (whole) {
                straight(wire, leg);
            }
            return;
        }
        int[] taps = fabric.tapTiles(wire);
        TapLine line = TapLine.of(fabric, taps);
        if (isOneLine(line, taps)) {
            if (fromTile != toTile) {
                drawStraight(wire, taps, line, fromTile, toTile, leg);
            }
            return;
        }
        WirePath path = WirePath.of(fabric, taps);
        int[] places = path.between(path.placeIn(fromTile), path.placeIn(toTile));
        int last = 0;
        for (int i = 1; i < places.length; i++) {
            // Legs that go straight on are one line, so that its dashes go on, too.
            boolean straightOn =
                    i + 1 < places.length && isInLine(path, places[last], places[i + 1]);
            if (!straightOn) {
                draw(wire, path, places[last], places[i], leg);
                last = i;
            }
        }
    }

    /**
     * Whether the taps of a wire, as of nearly all, follow each other along one row or column:
     * these are drawn in every frame, and need no {@link WirePath}.
     */
    private static boolean isOneLine(TapLine line, int[] taps) {
        return line.isStraight() && TapLine.goOneWay(taps);
    }

    private void drawStraight(int wire, int[] taps, TapLine line, int from, int to, Leg leg) {
        leg.draw(
                straightX(wire, taps, line, from),
                straightY(wire, taps, line, from),
                straightX(wire, taps, line, to),
                straightY(wire, taps, line, to));
    }

    private double straightX(int wire, int[] taps, TapLine line, int tile) {
        int lane = index.lanes().of(wire);
        return boxX[fabric.column(tile)]
                + (line == TapLine.ROW ? toRim(taps, tile, lane) : offsets[lane]);
    }

    private double straightY(int wire, int[] taps, TapLine line, int tile) {
        int lane = index.lanes().of(wire);
        return boxY[fabric.row(tile)]
                + (line == TapLine.ROW ? offsets[lane] : toRim(taps, tile, lane));
    }

    /** From the middle of a box to its rim at both ends of a wire; to the middle between them. */
    private double toRim(int[] taps, int tile, int lane) {
        boolean rises = taps[0] < taps[1];
        if (tile == taps[0]) {
            return rises ? depths[lane] : -depths[lane];
        }
        return tile != taps[taps.length - 1] ? 0 : rises ? -depths[lane] : depths[lane];
    }

    private boolean isInLine(WirePath path, int one, int other) {
        int from = path.tile(one);
        int to = path.tile(other);
        return fabric.row(from) == fabric.row(to) || fabric.column(from) == fabric.column(to);
    }

    private void draw(int wire, WirePath path, int from, int to, Leg leg) {
        Point start = place(wire, path, from);
        Point end = place(wire, path, to);
        leg.draw(start.x(), start.y(), end.x(), end.y());
    }

    /** Wires keep to their lane along rows and columns; at their ends they stop at the box. */
    private Point place(int wire, WirePath path, int place) {
        int tile = path.tile(place);
        int column = fabric.column(tile);
        int row = fabric.row(tile);
        int inColumn = index.lanes().of(wire, tile, false) % offsets.length;
        int inRow = index.lanes().of(wire, tile, true) % offsets.length;
        double x = boxX[column] + (path.runsAlongColumn(place) ? offsets[inColumn] : 0);
        double y = boxY[row] + (path.runsAlongRow(place) ? offsets[inRow] : 0);
        int next = path.onlyNeighbour(place);
        if (next != Fabric.NOTHING) {
            int nextColumn = fabric.column(path.tile(next));
            int nextRow = fabric.row(path.tile(next));
            x += depths[inRow] * Integer.signum(nextColumn - column);
            y += depths[inColumn] * Integer.signum(nextRow - row);
        }
        return new Point(x, y);
    }

    /**
     * The tiles in which a signal leaves one vertex and enters the next.
     *
     * @param fromTile where the first is left
     * @param toTile where the second is entered; the same, if the description says where they meet
     */
    public record Meeting(int fromTile, int toTile) {}

    /** Where a connection leads from one vertex to another. */
    public Meeting meeting(int from, int to) {
        int tile = fabric.switchTile(from, to);
        if (tile != Fabric.NOTHING && isIn(from, tile) && isIn(to, tile)) {
            return new Meeting(tile, tile);
        }
        if (!index.isTapped(from) && !index.isTapped(to)) {
            return new Meeting(fabric.headTile(from), fabric.tile(to));
        }
        Meeting nearest = new Meeting(fabric.headTile(from), fabric.tile(to));
        int least = Integer.MAX_VALUE;
        for (int one : fabric.tapTiles(from)) {
            for (int other : fabric.tapTiles(to)) {
                int apart =
                        Math.abs(fabric.column(one) - fabric.column(other))
                                + Math.abs(fabric.row(one) - fabric.row(other));
                if (apart < least) {
                    least = apart;
                    nearest = new Meeting(one, other);
                }
            }
        }
        return nearest;
    }

    /** Pins of a site over several tiles are joined in each of them, wherever they are drawn. */
    private boolean isIn(int vertex, int tile) {
        return fabric.kind(vertex) == VertexKind.PIN
                || Arrays.stream(fabric.tapTiles(vertex)).anyMatch(t -> t == tile);
    }

    /** Where a signal enters a vertex in the tile of one of its taps. */
    public Point entry(int vertex, int tile) {
        return fabric.headTile(vertex) == fabric.tile(vertex) && !index.isTapped(vertex)
                ? start(vertex)
                : at(vertex, tile);
    }

    /** Where a signal leaves a vertex in the tile of one of its taps. */
    public Point exit(int vertex, int tile) {
        return fabric.headTile(vertex) == fabric.tile(vertex) && !index.isTapped(vertex)
                ? end(vertex)
                : at(vertex, tile);
    }

    /** Where a line from the middle of a box to a place outside meets the rim of the box. */
    public Point rim(int tile, Point outside) {
        Point middle = box(tile);
        double dx = outside.x() - middle.x();
        double dy = outside.y() - middle.y();
        double away = Math.hypot(dx, dy);
        double share = away <= BOX_RADIUS ? 1 : BOX_RADIUS / away;
        return new Point(middle.x() + share * dx, middle.y() + share * dy);
    }

    /**
     * Draws a connection: straight, but from and to the pins of sites inside the fabric beside
     * these, and below all sites of the tile, so that it crosses none. Between a wire and a pin or
     * pad it leaves the box where that is nearest, so that it does not lie on the wire.
     */
    public void connection(int from, int to, Meeting where, Leg leg) {
        List<Point> points = new ArrayList<>();
        if (index.head(to) == Fabric.NOTHING) {
            points.add(exit(from, where.fromTile()));
        } else {
            points.addAll(outOfSite(from, where.fromTile()));
        }
        boolean fromWire = index.head(from) != Fabric.NOTHING;
        boolean toWire = index.head(to) != Fabric.NOTHING;
        if (!fromWire && toWire) {
            points.add(rim(where.toTile(), points.get(points.size() - 1)));
        } else if (fromWire && !toWire) {
            Point end = pads.isPad(to) ? innerEdge(to) : boxEnd(to, where.toTile());
            points.add(rim(where.toTile(), end));
        }
        if (pads.isPad(to)) {
            points.add(innerEdge(to));
        } else if (index.head(from) == Fabric.NOTHING) {
            points.add(entry(to, where.toTile()));
        } else {
            List<Point> end = outOfSite(to, where.toTile());
            for (int i = end.size() - 1; i >= 0; i--) {
                points.add(end.get(i));
            }
        }
        for (int i = 1; i < points.size(); i++) {
            Point one = points.get(i - 1);
            Point next = points.get(i);
            leg.draw(one.x(), one.y(), next.x(), next.y());
        }
    }

    /** From a pin past its site to where a line to the box crosses none; else the one place. */
    private List<Point> outOfSite(int vertex, int tile) {
        Point at = exit(vertex, tile);
        if (fabric.kind(vertex) != VertexKind.PIN) {
            return List.of(at);
        }
        SiteView site = fabric.site(fabric.siteOf(vertex));
        if (isRim(site.tile()) || !site.moreTiles().isEmpty()) {
            return List.of(at);
        }
        boolean out = site.pins().get(vertex - site.firstPin()).direction() == PinDirection.OUT;
        double x = at.x() + (out ? BESIDE : -BESIDE);
        double below = fabric.row(site.tile()) + BELOW_SITES;
        List<Point> points =
                new ArrayList<>(List.of(at, new Point(x, at.y()), new Point(x, below)));
        if (box(site.tile()).y() > below) {
            // The box is beside the sites, as in the lowest row.
            points.add(new Point(fabric.column(site.tile()) + LEFT_OF_SITES, below));
        }
        return points;
    }

    /** The end of a connection that is nearest to the switch box: of a pin, past its site. */
    public Point boxEnd(int vertex, int tile) {
        List<Point> points = outOfSite(vertex, tile);
        return points.get(points.size() - 1);
    }

    private Point at(int vertex, int tile) {
        if (index.isTapped(vertex)) {
            int[] taps = fabric.tapTiles(vertex);
            TapLine line = TapLine.of(fabric, taps);
            if (isOneLine(line, taps)) {
                return new Point(
                        straightX(vertex, taps, line, tile), straightY(vertex, taps, line, tile));
            }
            WirePath path = WirePath.of(fabric, taps);
            return place(vertex, path, path.placeIn(tile));
        }
        return tile == fabric.headTile(vertex) ? end(vertex) : start(vertex);
    }

    private Point pin(int vertex) {
        SiteView site = fabric.site(fabric.siteOf(vertex));
        Box box = site(site.id(), site.tile());
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
