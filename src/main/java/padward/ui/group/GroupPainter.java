package padward.ui.group;

import java.util.ArrayList;
import java.util.List;
import padward.breakout.group.Bus;
import padward.design.Net;
import padward.fabric.VertexKind;
import padward.ui.design.TileLayout;
import padward.ui.draw.Palette;
import padward.ui.draw.Surface;
import padward.ui.paint.MarkedRoutes;
import padward.ui.paint.RouteMark;
import padward.ui.scene.LegendEntry;
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
    private static final int FIRST_MARK = 10;
    private static final double MARK = 7;

    @Override
    public void paint(MapScene scene, Surface out) {
        MapPen pen = new MapPen(scene, out);
        lines().paint(scene, out);
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

    private static TileLayout.Point middle(int vertex, boolean pad, TileLayout layout) {
        if (pad) {
            TileLayout.Box box = layout.pillAt(vertex);
            return new TileLayout.Point(box.centreX(), box.centreY());
        }
        TileLayout.Point from = layout.start(vertex);
        TileLayout.Point to = layout.end(vertex);
        return new TileLayout.Point((from.x() + to.x()) / 2, (from.y() + to.y()) / 2);
    }

    /** The routes, with other marks than the first ten questions have. */
    MarkedRoutes lines() {
        List<MarkedRoutes.Line> lines = new ArrayList<>();
        for (Bus.Line line : bus.lines()) {
            lines.add(
                    new MarkedRoutes.Line(
                            line.route(),
                            line.net().name(),
                            new RouteMark(FIRST_MARK + lines.size())));
        }
        return new MarkedRoutes(lines);
    }

    @Override
    public List<LegendEntry> legend(Palette colors) {
        return lines().legend(colors);
    }
}
