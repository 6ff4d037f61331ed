package padward.ui.paint;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;
import javafx.scene.paint.Color;
import padward.breakout.ask.Hop;
import padward.breakout.ask.Route;
import padward.design.Net;
import padward.design.Occupancy;
import padward.design.RouteTree;
import padward.fabric.Fabric;
import padward.ui.design.BoxDiagram;
import padward.ui.design.NetParts;
import padward.ui.design.OpenDesign;
import padward.ui.design.TileLayout;
import padward.ui.draw.Palette;
import padward.ui.draw.Surface;
import padward.ui.draw.Tag;
import padward.ui.draw.Viewport;
import padward.ui.scene.MapLayer;
import padward.ui.scene.MapScene;
import padward.ui.scene.ZoomScales;

/**
 * Paints the inside of switch boxes at the nearest zoom: what switches leave at the left, what they
 * enter at the right, and lines for the switches that nets use and the question is about. Free
 * switches are drawn only where they are few, and for wires that are marked. Lines come from where
 * they meet the disc around its rim to their row, so that a route can be followed through the box.
 */
final class BoxPainter {
    /** More free switches than this would fill the box with lines. */
    private static final int MOST_FREE = 60;

    /** Names of more bars would cover each other; the card of the box states them. */
    private static final int MOST_NAMED_GROUPS = 4;

    private static final double LETTERS = 11;

    /** Names need rows at least this far apart, relative to the size of letters. */
    private static final double LEAST_PITCH = 0.95;

    private static final double DOT = 3.5;
    private static final double BESIDE = 8;

    /** Where lines go around, relative to the radius of the box: between these two rings. */
    private static final double OUTERMOST = 0.97;

    private static final double INNERMOST = 0.88;

    /** Distance of rings that keeps cased lines apart, pixels. */
    private static final double RING_APART = 8;

    private static final int MOST_RINGS = 8;

    /** Parts of a ring, by which it is known where it is taken. */
    private static final int SECTORS = 180;

    /** How much wider the paper below a line of the question is. */
    private static final double CASING = 2.5;

    /** A step of a polyline around the rim, pixels: two periods of the dashes of alternatives. */
    private static final double ARC_STEP = 30;

    /** A shorter arc has no arrowhead besides that on its row, pixels. */
    private static final double LEAST_ARC = 60;

    /** Distance from the ring to the middle of an arrowhead on a row, pixels. */
    private static final double FROM_RING = 22;

    private final MapScene scene;
    private final Surface out;
    private final OpenDesign opened;
    private final TileLayout layout;
    private final Fabric fabric;
    private final Viewport view;
    private final Palette colors;
    private final double size;

    BoxPainter(MapScene scene, Surface out) {
        this.scene = scene;
        this.out = out;
        this.opened = scene.opened();
        this.layout = opened.layout();
        this.fabric = opened.design().fabric();
        this.view = scene.view();
        this.colors = scene.palette();
        this.size = scene.letters(LETTERS);
    }

    /** Paints all boxes in view. */
    void paint() {
        if (scene.scale() >= ZoomScales.BOX) {
            scene.tilesSeen()
                    .forEach(
                            tile -> {
                                if (isSeen(tile) && !opened.index().isEmpty(tile)) {
                                    new Box(tile).paint();
                                }
                            });
        }
    }

    /** Paints all switches of a wire or pin in the boxes in view, with the names of their ends. */
    void paintSwitchesOf(int vertex) {
        if (scene.scale() >= ZoomScales.BOX) {
            scene.tilesSeen()
                    .forEach(
                            tile -> {
                                if (isSeen(tile) && !opened.index().isEmpty(tile)) {
                                    new Box(tile).paintSwitchesOf(vertex);
                                }
                            });
        }
    }

    private boolean isSeen(int tile) {
        TileLayout.Point middle = layout.box(tile);
        double x = view.screenX(middle.x());
        double y = view.screenY(middle.y());
        double r = TileLayout.BOX_RADIUS * scene.scale();
        return x + r > 0 && y + r > 0 && x - r < view.width() && y - r < view.height();
    }

    /**
     * How a line goes around the inside of a box to a row.
     *
     * @param from a point on the rim, or of an output's row
     * @param ofRow whether it is of a row
     * @param row the row to which it goes
     * @param input whether that is an input's row
     */
    private record Arc(TileLayout.Point from, boolean ofRow, int row, boolean input) {}

    /**
     * An arc, how its line is drawn, and whether the question is about it.
     *
     * @param ofRoute whether it is the route itself, which shows its direction
     */
    private record Strand(Arc arc, Surface.Line line, boolean ofQuestion, boolean ofRoute) {}

    /** The inside of one box. */
    private final class Box {
        private final int tile;
        private final BoxDiagram diagram;
        private final TileLayout.Point middle;

        /** Rows whose names are shown even where not all are. */
        private final Color[] inputNames;

        private final Color[] outputNames;
        private final List<Strand> strands = new ArrayList<>();

        /** Whether the question's lines are being drawn: on paper, over all others. */
        private boolean isAsking;

        /** Whether the route's own lines are being collected. */
        private boolean isRoute;

        /** Switches that the question or a mark is about. */
        private final Set<BoxDiagram.Switch> asked = new HashSet<>();

        Box(int tile) {
            this.tile = tile;
            this.diagram = opened.diagram(tile);
            this.middle = layout.box(tile);
            this.inputNames = new Color[diagram.inputCount()];
            this.outputNames = new Color[diagram.outputCount()];
        }

        void paint() {
            double x = view.screenX(middle.x());
            double y = view.screenY(middle.y());
            double r = TileLayout.BOX_RADIUS * scene.scale();
            out.fillDisc(x, y, r, colors.tile());
            out.outlineDisc(x, y, r, new Surface.Line(colors.box(), 1.5));
            if (diagram.switches().size() <= MOST_FREE) {
                Color faint = colors.tile().interpolate(colors.box(), 0.45);
                diagram.switches().forEach(s -> link(s, new Surface.Line(faint, 1)));
            }
            if (scene.shows(MapLayer.OCCUPANCY)) {
                paintUsed();
            }
            isAsking = true;
            paintQuestion();
            isAsking = false;
            paintStrands();
            scene.marked().forEach(this::paintMarked);
            paintGroups();
            paintDots();
            paintNames(false);
            if (scene.shows(MapLayer.OBSTACLES) && scene.before().isEmpty()) {
                scene.route().ifPresent(this::paintObstacles);
            }
            boolean inView = x > -r && x < view.width() + r && y > -r && y < view.height() + r;
            if (inView && middleTile() == tile) {
                paintTitle(x, y, r);
            }
        }

        /** The tile in the middle of the view. */
        private int middleTile() {
            int column = (int) Math.floor(view.centreX());
            int row = (int) Math.floor(view.centreY());
            boolean inside =
                    column >= 0 && row >= 0 && column < fabric.columns() && row < fabric.rows();
            return inside ? row * fabric.columns() + column : Fabric.NOTHING;
        }

        private void paintUsed() {
            Occupancy occupancy = opened.design().occupancy();
            NetParts parts = new NetParts(opened);
            Surface.Line line = new Surface.Line(scene.usedWires(), 2.5);
            for (int row = 0; row < diagram.outputCount(); row++) {
                int to = diagram.output(row);
                Optional<Net> net = occupancy.findNetOn(to);
                int from = net.map(n -> opened.parents().parent(n, to)).orElse(Fabric.NOTHING);
                if (from == Fabric.NOTHING || diagram.inputRow(from) == Fabric.NOTHING) {
                    continue;
                }
                TileLayout.Meeting where = layout.meeting(from, to);
                if (where.toTile() != tile) {
                    continue;
                }
                passage(from, to, line, colors.ink());
                int grand = parents(net.get(), from);
                if (grand != Fabric.NOTHING) {
                    arrives(from, layout.meeting(grand, from).toTile(), line);
                }
                parts.forEachPart(to, (enters, leaves) -> departs(to, leaves, line));
            }
        }

        private int parents(Net net, int vertex) {
            return opened.parents().parent(net, vertex);
        }

        private void paintQuestion() {
            if (scene.shows(MapLayer.TREE)) {
                scene.net().ifPresent(n -> tree(n.route()));
            }
            if (scene.shows(MapLayer.ALTERNATIVES)) {
                scene.alternatives()
                        .forEach(r -> route(r, new Surface.Line(colors.alternative(), 2.5, 9, 6)));
            }
            if (scene.shows(MapLayer.ROUTE)) {
                isRoute = true;
                scene.route().ifPresent(r -> route(r, new Surface.Line(colors.route(), 4)));
                isRoute = false;
                scene.before()
                        .ifPresent(r -> route(r, new Surface.Line(colors.obstacle(), 2.5, 2, 6)));
            }
        }

        private void tree(RouteTree tree) {
            Surface.Line line = new Surface.Line(colors.net(), 2.5);
            int[] enters = new int[tree.size()];
            enters[0] = Fabric.NOTHING;
            for (int place = 1; place < tree.size(); place++) {
                int parent = tree.parent(place);
                TileLayout.Meeting where = layout.meeting(tree.vertex(parent), tree.vertex(place));
                enters[place] = where.toTile();
                if (where.toTile() == tile) {
                    passage(tree.vertex(parent), tree.vertex(place), line, colors.net());
                    ask(tree.vertex(parent), tree.vertex(place));
                    arrives(tree.vertex(parent), enters[parent], line);
                }
                if (enters[parent] == tile && where.fromTile() != tile) {
                    departs(tree.vertex(parent), where.fromTile(), line);
                }
            }
        }

        private void route(Route route, Surface.Line line) {
            List<Hop> hops = route.hops();
            int enters = Fabric.NOTHING;
            for (int i = 1; i < hops.size(); i++) {
                int from = hops.get(i - 1).vertex();
                int to = hops.get(i).vertex();
                TileLayout.Meeting where = layout.meeting(from, to);
                if (where.toTile() == tile) {
                    passage(from, to, line, line.color());
                    ask(from, to);
                    arrives(from, enters, line);
                }
                if (enters == tile && where.fromTile() != tile) {
                    departs(from, where.fromTile(), line);
                }
                enters = where.toTile();
            }
        }

        /** The mark of an obstacle on each row that the route uses and something else, too. */
        private void paintObstacles(Route route) {
            for (Hop hop : route.hops()) {
                int row = diagram.outputRow(hop.vertex());
                boolean blocked = hop.obstacle().isPresent() && row != Fabric.NOTHING;
                if (blocked && outputNames[row] != null) {
                    TileLayout.Point at = diagram.outputAt(row);
                    RoutePainter.bar(out, colors, view.screenX(at.x()), view.screenY(at.y()));
                }
            }
        }

        /** All switches of a marked wire. */
        private void paintMarked(int vertex) {
            int in = diagram.inputRow(vertex);
            int to = diagram.outputRow(vertex);
            Surface.Line line = new Surface.Line(colors.selection(), 1.5);
            diagram.switches().stream()
                    .filter(s -> s.from() == in || s.to() == to)
                    .forEach(
                            s -> {
                                link(s, line);
                                asked.add(s);
                                inputNames[s.from()] = colors.selection();
                                outputNames[s.to()] = colors.selection();
                            });
        }

        /** Notes that the question is about a switch. */
        private void ask(int from, int to) {
            asked.add(new BoxDiagram.Switch(diagram.inputRow(from), diagram.outputRow(to)));
        }

        /** A switch, and short lines to pins and pads at its ends. */
        private void passage(int from, int to, Surface.Line line, Color names) {
            int in = diagram.inputRow(from);
            int at = diagram.outputRow(to);
            boolean fromWire = opened.index().head(from) != Fabric.NOTHING;
            boolean toWire = opened.index().head(to) != Fabric.NOTHING;
            // From pin to pin, the line is between the sites.
            if (in == Fabric.NOTHING || at == Fabric.NOTHING || !fromWire && !toWire) {
                return;
            }
            link(new BoxDiagram.Switch(in, at), line);
            inputNames[in] = names;
            outputNames[at] = names;
            if (!fromWire) {
                around(layout.rim(tile, layout.boxEnd(from, tile)), in, true, line);
            }
            if (!toWire) {
                TileLayout.Point end =
                        layout.pads().isPad(to) ? layout.innerEdge(to) : layout.boxEnd(to, tile);
                around(layout.rim(tile, end), at, false, line);
            }
        }

        /** How a wire that was entered in some tile comes to its row. */
        private void arrives(int wire, int enters, Surface.Line line) {
            int row = diagram.inputRow(wire);
            if (row == Fabric.NOTHING || enters == Fabric.NOTHING) {
                return;
            }
            if (enters != tile) {
                crossing(wire, enters).ifPresent(p -> around(p, row, true, line));
            } else if (diagram.outputRow(wire) != Fabric.NOTHING) {
                TileLayout.Point right = diagram.outputAt(diagram.outputRow(wire));
                add(new Arc(right, true, row, true), line);
            }
        }

        /** How a wire that is entered here goes from its row towards the tile where it is left. */
        private void departs(int wire, int leaves, Surface.Line line) {
            int row = diagram.outputRow(wire);
            if (row != Fabric.NOTHING && leaves != tile) {
                crossing(wire, leaves).ifPresent(p -> around(p, row, false, line));
            }
        }

        /** Where a wire on its way between this and another tile crosses the rim of the box. */
        private Optional<TileLayout.Point> crossing(int wire, int other) {
            List<TileLayout.Point> found = new ArrayList<>();
            layout.forEachLeg(
                    wire,
                    tile,
                    other,
                    (x0, y0, x1, y1) -> {
                        TileLayout.Point one = new TileLayout.Point(x0, y0);
                        TileLayout.Point end = new TileLayout.Point(x1, y1);
                        boolean inside = isInside(one) || isInside(end);
                        if (inside) {
                            found.add(isInside(one) ? rim(one, end) : rim(end, one));
                        }
                    });
            return found.stream().findFirst();
        }

        private boolean isInside(TileLayout.Point point) {
            return Math.hypot(point.x() - middle.x(), point.y() - middle.y())
                    <= TileLayout.BOX_RADIUS * 1.001;
        }

        /** The last point on the rim of a line from one place to another; the first if none is. */
        private TileLayout.Point rim(TileLayout.Point from, TileLayout.Point to) {
            double dx = to.x() - from.x();
            double dy = to.y() - from.y();
            double fx = from.x() - middle.x();
            double fy = from.y() - middle.y();
            double a = dx * dx + dy * dy;
            double b = 2 * (fx * dx + fy * dy);
            double c = fx * fx + fy * fy - TileLayout.BOX_RADIUS * TileLayout.BOX_RADIUS;
            double root = b * b - 4 * a * c;
            if (a == 0 || root < 0) {
                return from;
            }
            double at = Math.max(0, Math.min(1, (-b + Math.sqrt(root)) / (2 * a)));
            return new TileLayout.Point(from.x() + at * dx, from.y() + at * dy);
        }

        /** The point of a ring beside a row. */
        private TileLayout.Point onRing(TileLayout.Point dot, double ring) {
            double dy = dot.y() - middle.y();
            double dx = Math.sqrt(Math.max(0, ring * ring - dy * dy));
            return new TileLayout.Point(middle.x() + (dot.x() < middle.x() ? -dx : dx), dot.y());
        }

        /** A line from a point on the rim around the inside of the box to a row. */
        private void around(TileLayout.Point rim, int row, boolean input, Surface.Line line) {
            add(new Arc(rim, false, row, input), line);
        }

        private void add(Arc arc, Surface.Line line) {
            strands.add(new Strand(arc, line, isAsking, isRoute));
        }

        /**
         * Gives each arc a ring on which it meets no other, the question's first, and draws all.
         * Where there are too few rings, arcs of the question keep theirs to themselves.
         */
        private void paintStrands() {
            double room = (OUTERMOST - INNERMOST) * TileLayout.BOX_RADIUS * scene.scale();
            int count = Math.max(2, Math.min(MOST_RINGS, (int) (room / RING_APART) + 1));
            int[][] taken = new int[count][SECTORS];
            Map<Arc, Double> rings = new HashMap<>();
            for (int i = strands.size() - 1; i >= 0; i--) {
                Strand strand = strands.get(i);
                rings.computeIfAbsent(strand.arc(), w -> freeRing(strand, taken));
            }
            for (Strand strand : strands) {
                List<TileLayout.Point> points = points(strand.arc(), rings.get(strand.arc()));
                if (strand.ofQuestion()) {
                    polyline(points, casing(strand.line()));
                }
                polyline(points, strand.line());
            }
            for (Strand strand : strands) {
                if (strand.ofRoute()) {
                    paintDirection(strand, points(strand.arc(), rings.get(strand.arc())));
                }
            }
        }

        /** Arrowheads on the row and the arc of a strand. */
        private void paintDirection(Strand strand, List<TileLayout.Point> points) {
            boolean toRow = strand.arc().input();
            int last = points.size() - 1;
            TileLayout.Point corner = points.get(last - 1);
            TileLayout.Point dot = points.get(last);
            double row = distance(corner, dot);
            double share = row < 2 * FROM_RING ? 0.5 : FROM_RING / row;
            head(corner, dot, share, toRow, strand.line());
            int half = last / 2;
            if ((last - 2) * distance(points.get(half), points.get(half + 1)) >= LEAST_ARC) {
                head(points.get(half), points.get(half + 1), 0.5, toRow, strand.line());
            }
        }

        private double distance(TileLayout.Point one, TileLayout.Point other) {
            return Math.hypot(other.x() - one.x(), other.y() - one.y()) * scene.scale();
        }

        /** An arrowhead on a line, at a share of it, onward or backward. */
        private void head(
                TileLayout.Point from,
                TileLayout.Point to,
                double share,
                boolean onward,
                Surface.Line line) {
            Arrowhead.paint(
                    out,
                    colors,
                    view.screenX(from.x() + share * (to.x() - from.x())),
                    view.screenY(from.y() + share * (to.y() - from.y())),
                    (onward ? 1 : -1) * (to.x() - from.x()),
                    (onward ? 1 : -1) * (from.y() - to.y()),
                    line.color());
        }

        /** Takes the outermost ring that is free, or else the one that is least taken. */
        private double freeRing(Strand strand, int[][] taken) {
            double apart = (OUTERMOST - INNERMOST) / (taken.length - 1);
            int[] sectors = sectors(strand.arc()).toArray();
            int best = 0;
            int least = Integer.MAX_VALUE;
            for (int ring = 0; ring < taken.length && least > 0; ring++) {
                int sum = 0;
                for (int sector : sectors) {
                    sum += taken[ring][sector];
                }
                if (sum < least) {
                    least = sum;
                    best = ring;
                }
            }
            for (int sector : sectors) {
                taken[best][sector] += strand.ofQuestion() ? SECTORS : 1;
            }
            return (OUTERMOST - best * apart) * TileLayout.BOX_RADIUS;
        }

        /** The parts of a ring that an arc takes, with one more at each end. */
        private IntStream sectors(Arc arc) {
            double ring = INNERMOST * TileLayout.BOX_RADIUS;
            double from = angle(start(arc, ring));
            double turn = turn(from, angle(onRing(dot(arc), ring)));
            int first = (int) Math.floor(Math.min(from, from + turn) / (2 * Math.PI) * SECTORS) - 1;
            int last = (int) Math.ceil(Math.max(from, from + turn) / (2 * Math.PI) * SECTORS) + 1;
            return IntStream.rangeClosed(first, last).map(s -> Math.floorMod(s, SECTORS));
        }

        private TileLayout.Point dot(Arc arc) {
            return arc.input() ? diagram.inputAt(arc.row()) : diagram.outputAt(arc.row());
        }

        private TileLayout.Point start(Arc arc, double ring) {
            return arc.ofRow() ? onRing(arc.from(), ring) : arc.from();
        }

        private double angle(TileLayout.Point at) {
            return Math.atan2(at.y() - middle.y(), at.x() - middle.x());
        }

        /** The shorter turn from one angle to another. */
        private static double turn(double from, double to) {
            return Math.IEEEremainder(to - from, 2 * Math.PI);
        }

        private List<TileLayout.Point> points(Arc arc, double ring) {
            double from = angle(start(arc, ring));
            double turn = turn(from, angle(onRing(dot(arc), ring)));
            double length = Math.abs(turn) * ring * scene.scale();
            int steps = (int) Math.max(1, Math.ceil(length / ARC_STEP));
            List<TileLayout.Point> points = new ArrayList<>();
            points.add(arc.from());
            for (int i = 0; i <= steps; i++) {
                double angle = from + turn * i / steps;
                points.add(
                        new TileLayout.Point(
                                middle.x() + ring * Math.cos(angle),
                                middle.y() + ring * Math.sin(angle)));
            }
            points.add(dot(arc));
            return points;
        }

        private void polyline(List<TileLayout.Point> points, Surface.Line line) {
            for (int i = 1; i < points.size(); i++) {
                line(points.get(i - 1), points.get(i), line);
            }
        }

        private Surface.Line casing(Surface.Line line) {
            return new Surface.Line(colors.paper(), line.width() + CASING);
        }

        private void link(BoxDiagram.Switch one, Surface.Line line) {
            if (isAsking) {
                line(diagram.inputAt(one.from()), diagram.outputAt(one.to()), casing(line));
            }
            line(diagram.inputAt(one.from()), diagram.outputAt(one.to()), line);
        }

        private void line(TileLayout.Point from, TileLayout.Point to, Surface.Line line) {
            out.line(
                    view.screenX(from.x()),
                    view.screenY(from.y()),
                    view.screenX(to.x()),
                    view.screenY(to.y()),
                    line);
        }

        /**
         * A bar across the switches of which one can be on, with the group's name; where free
         * switches are not drawn, only of groups with one that the question or a mark is about.
         */
        private void paintGroups() {
            boolean all = diagram.switches().size() <= MOST_FREE;
            List<BoxDiagram.Group> groups =
                    diagram.groups().stream()
                            .filter(g -> all || g.switches().stream().anyMatch(asked::contains))
                            .toList();
            int count = groups.size();
            for (int i = 0; i < count; i++) {
                BoxDiagram.Group group = groups.get(i);
                double share = 0.62 + 0.24 * (i + 0.5) / count;
                double least = Double.MAX_VALUE;
                double most = -Double.MAX_VALUE;
                double x = 0;
                for (BoxDiagram.Switch one : group.switches()) {
                    TileLayout.Point from = diagram.inputAt(one.from());
                    TileLayout.Point to = diagram.outputAt(one.to());
                    x = view.screenX(from.x() + share * (to.x() - from.x()));
                    double y = view.screenY(from.y() + share * (to.y() - from.y()));
                    least = Math.min(least, y);
                    most = Math.max(most, y);
                    out.fillRect(x - DOT, y - DOT, 2 * DOT, 2 * DOT, 0, colors.frontier());
                }
                Surface.Line bar = new Surface.Line(colors.frontier(), 1.5, 2, 4);
                out.line(x, least, x, most, bar);
                if (count <= MOST_NAMED_GROUPS) {
                    // Names of bars side by side are above and below them by turns.
                    backed(
                            "one of " + withoutTile(group.name()),
                            x,
                            i % 2 == 0 ? least - size : most + size,
                            Surface.Align.CENTER,
                            colors.frontier());
                }
            }
        }

        private void paintDots() {
            for (int row = 0; row < diagram.inputCount(); row++) {
                dot(
                        diagram.inputAt(row),
                        diagram.input(row),
                        diagram.inputPitch(),
                        inputNames[row]);
            }
            for (int row = 0; row < diagram.outputCount(); row++) {
                dot(
                        diagram.outputAt(row),
                        diagram.output(row),
                        diagram.outputPitch(),
                        outputNames[row]);
            }
        }

        /**
         * A row: filled if it is used, or, in the colour of its name, if the question is about it.
         */
        private void dot(TileLayout.Point at, int vertex, double pitch, Color name) {
            double x = view.screenX(at.x());
            double y = view.screenY(at.y());
            double r = Math.min(DOT, Math.max(1, pitch * scene.scale() * 0.4));
            boolean isUsed =
                    scene.shows(MapLayer.OCCUPANCY) && opened.design().occupancy().isUsed(vertex);
            boolean isAsked = name != null && !name.equals(colors.selection());
            Color free = isAsked ? name : colors.site();
            out.fillDisc(x, y, r, isUsed ? colors.usedStrong() : free);
            if (r >= 2) {
                out.outlineDisc(x, y, r, new Surface.Line(colors.box(), 1));
            }
            if (fabric.unusable().isVertex(vertex)) {
                Surface.Line cross = new Surface.Line(colors.ink(), 1.5);
                out.line(x - DOT, y - DOT, x + DOT, y + DOT, cross);
                out.line(x - DOT, y + DOT, x + DOT, y - DOT, cross);
            }
        }

        void paintSwitchesOf(int vertex) {
            paintMarked(vertex);
            paintNames(true);
        }

        private void paintNames(boolean onlyStrong) {
            double least = onlyStrong ? Double.MAX_VALUE : LEAST_PITCH * size;
            names(true, inputNames, diagram.inputPitch() * scene.scale() >= least);
            names(false, outputNames, diagram.outputPitch() * scene.scale() >= least);
        }

        /** All names where rows are far enough apart, else those of strong lines that fit. */
        private void names(boolean input, Color[] strong, boolean all) {
            double last = -Double.MAX_VALUE;
            for (int row = 0; row < strong.length; row++) {
                TileLayout.Point at = input ? diagram.inputAt(row) : diagram.outputAt(row);
                double y = view.screenY(at.y());
                boolean shown = all || strong[row] != null && y - last >= size;
                if (!shown || y < -size || y > view.height() + size) {
                    continue;
                }
                last = y;
                double x = view.screenX(at.x()) + (input ? -BESIDE : BESIDE);
                double dy = at.y() - middle.y();
                double room =
                        (Math.sqrt(Math.max(0, Math.pow(0.87 * TileLayout.BOX_RADIUS, 2) - dy * dy))
                                        - BoxDiagram.HALF_WIDTH)
                                * scene.scale();
                String name = nameHere(input ? diagram.input(row) : diagram.output(row));
                String text =
                        SitePainter.shortened(
                                name, Math.max(6, Surface.Lettering.room(room, size)));
                Surface.Align align = input ? Surface.Align.RIGHT : Surface.Align.LEFT;
                if (strong[row] != null) {
                    // The colour of a line is too weak for letters.
                    Color letters = strong[row].interpolate(colors.ink(), 0.45);
                    backed(text, x, y, align, letters);
                } else {
                    out.text(text, x, y, new Surface.Lettering(size, align, colors.faint()));
                }
            }
        }

        /** What a vertex is called in this tile, without the tile's name. */
        private String nameHere(int vertex) {
            return withoutTile(fabric.nameIn(vertex, tile));
        }

        private String withoutTile(String name) {
            String own = fabric.tileName(tile) + "/";
            return name.startsWith(own) ? name.substring(own.length()) : name;
        }

        private void backed(String text, double x, double y, Surface.Align align, Color color) {
            double wide = Surface.Lettering.width(text, size);
            double left =
                    switch (align) {
                        case LEFT -> x;
                        case CENTER -> x - wide / 2;
                        case RIGHT -> x - wide;
                    };
            out.fillRect(left - 2, y - size * 0.55, wide + 4, size * 1.1, 4, colors.tile());
            out.text(text, x, y, new Surface.Lettering(size, align, color));
        }

        private void paintTitle(double x, double y, double r) {
            String text =
                    "switch box of "
                            + fabric.tileName(tile)
                            + ": "
                            + diagram.switches().size()
                            + " switches from "
                            + diagram.inputCount()
                            + " inputs, left, to "
                            + diagram.outputCount()
                            + " outputs, right";
            Tag tag = new Tag(text, size, colors.box());
            double top = Math.max(8, y - r - tag.height() - 8);
            boolean besideOverview = scene.shows(MapLayer.OVERVIEW) && top < OverviewPainter.WIDTH;
            double end = view.width() - (besideOverview ? OverviewPainter.WIDTH : 8);
            tag.paint(out, colors, Math.max(8, Math.min(x - r, end - tag.width())), top);
        }
    }
}
