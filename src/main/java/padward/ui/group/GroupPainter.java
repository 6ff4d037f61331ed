package padward.ui.group;

import java.util.ArrayList;
import java.util.List;
import javafx.geometry.Rectangle2D;
import padward.breakout.ask.Hop;
import padward.breakout.group.Bus;
import padward.design.Net;
import padward.fabric.VertexKind;
import padward.ui.design.TileLayout;
import padward.ui.draw.Palette;
import padward.ui.draw.Surface;
import padward.ui.draw.Tag;
import padward.ui.scene.MapOverlay;
import padward.ui.scene.MapPen;
import padward.ui.scene.MapScene;

/**
 * Paints a routed group over the map: the routes, each with its net's name at the pad, and the
 * bottleneck, if not all nets could be served: the wires, pins and pads of which every free route
 * passes one, and the nets that have to share them.
 *
 * @param bus the group
 */
record GroupPainter(Bus bus) implements MapOverlay {
    private static final double LETTERS = 12;
    private static final double MARK = 7;

    /** More names than this would only cover each other. */
    private static final int MOST_NAMES = 24;

    /** How much wider the paper below a line is. */
    private static final double CASING = 2.5;

    @Override
    public void paint(MapScene scene, Surface out) {
        Palette colors = scene.palette();
        MapPen pen = new MapPen(scene, out);
        List<Rectangle2D> names = new ArrayList<>();
        for (Bus.Line line : bus.lines()) {
            int[] vertices = line.route().hops().stream().mapToInt(Hop::vertex).toArray();
            pen.route(vertices, new Surface.Line(colors.paper(), 3 + CASING));
            pen.route(vertices, new Surface.Line(colors.route(), 3));
        }
        for (Bus.Line line : bus.lines().subList(0, Math.min(MOST_NAMES, bus.lines().size()))) {
            TileLayout.Box pad = scene.opened().layout().pillAt(last(line));
            name(line.net().name(), pad.centreX(), pad.centreY(), scene, out, names);
        }
        bus.proof().flatMap(Bus.Proof::bottleneck).ifPresent(b -> paint(b, scene, pen, out));
    }

    private static void paint(Bus.Bottleneck cut, MapScene scene, MapPen pen, Surface out) {
        Palette colors = scene.palette();
        for (Net net : cut.nets()) {
            pen.tree(net.route(), new Surface.Line(colors.net(), 2));
        }
        Surface.Line dashed = new Surface.Line(colors.obstacle(), 5, 5, 9);
        for (int vertex : cut.vertices()) {
            boolean pad = scene.opened().design().fabric().kind(vertex) == VertexKind.PAD;
            if (!pad) {
                pen.vertex(vertex, dashed);
            }
            TileLayout.Point at = middle(vertex, pad, scene.opened().layout());
            double x = scene.view().screenX(at.x());
            double y = scene.view().screenY(at.y());
            out.fillDisc(x, y, MARK + 2, colors.paper());
            out.fillDisc(x, y, MARK, colors.obstacle());
            out.line(x, y - 4, x, y + 4, new Surface.Line(colors.paper(), 2.5));
        }
    }

    private static int last(Bus.Line line) {
        List<Hop> hops = line.route().hops();
        return hops.get(hops.size() - 1).vertex();
    }

    private static TileLayout.Point middle(int vertex, boolean pad, TileLayout layout) {
        if (pad) {
            TileLayout.Box box = layout.pillAt(vertex);
            return new TileLayout.Point(box.centreX(), box.centreY());
        }
        TileLayout.Point from = layout.start(vertex);
        TileLayout.Point to = layout.end(vertex);
        return new TileLayout.Point((from.x() + to.x()) / 2, (from.y() + to.y()) / 2);
    }

    /** A name outside its pad, or inside where there is no room; not where it covers another. */
    private static void name(
            String text,
            double worldX,
            double worldY,
            MapScene scene,
            Surface out,
            List<Rectangle2D> names) {
        double x = scene.view().screenX(worldX);
        double y = scene.view().screenY(worldY);
        Tag tag = new Tag(text, scene.letters(LETTERS), scene.palette().route());
        double before = x - tag.width() - 14;
        double behind = x + 14;
        boolean left = x < scene.view().width() / 2;
        for (double at : left ? new double[] {before, behind} : new double[] {behind, before}) {
            Rectangle2D place =
                    new Rectangle2D(at, y - tag.height() / 2, tag.width(), tag.height());
            Rectangle2D view = new Rectangle2D(0, 0, scene.view().width(), scene.view().height());
            if (view.contains(place) && names.stream().noneMatch(place::intersects)) {
                names.add(place);
                tag.paint(out, scene.palette(), place.getMinX(), place.getMinY());
                return;
            }
        }
    }
}
