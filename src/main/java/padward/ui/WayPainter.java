package padward.ui;

import java.util.Optional;
import javafx.scene.canvas.GraphicsContext;
import javafx.scene.paint.Color;
import javafx.scene.shape.StrokeLineCap;
import javafx.scene.shape.StrokeLineJoin;
import padward.breakout.Hop;
import padward.breakout.Way;
import padward.design.Net;
import padward.design.RouteTree;

/**
 * Paints what stands out on the map: the net's own tree, the way, its obstacles, the selected hop.
 */
final class WayPainter {
    private static final double WAY_WIDTH = 4;
    private static final double MARK = 7;

    private final TileLayout layout;
    private final Viewport view;
    private final Palette palette;
    private final GraphicsContext g;

    WayPainter(TileLayout layout, Viewport view, Palette palette, GraphicsContext g) {
        this.layout = layout;
        this.view = view;
        this.palette = palette;
        this.g = g;
        g.setLineCap(StrokeLineCap.ROUND);
        g.setLineJoin(StrokeLineJoin.ROUND);
    }

    void paintTree(Net net) {
        RouteTree tree = net.route();
        g.setStroke(palette.net());
        g.setLineWidth(2);
        for (int place = 0; place < tree.size(); place++) {
            if (place > 0) {
                line(layout.end(tree.vertex(tree.parent(place))), layout.start(tree.vertex(place)));
            }
            line(layout.start(tree.vertex(place)), layout.end(tree.vertex(place)));
        }
    }

    void paintWay(Way way) {
        g.setStroke(palette.way());
        g.setLineWidth(WAY_WIDTH);
        for (int i = 0; i < way.hops().size(); i++) {
            int vertex = way.hops().get(i).vertex();
            if (i > 0) {
                line(layout.end(way.hops().get(i - 1).vertex()), layout.start(vertex));
            }
            line(layout.start(vertex), layout.end(vertex));
        }
        way.hops().stream().filter(h -> h.obstacle().isPresent()).forEach(this::paintObstacle);
        disc(way.hops().get(0), palette.way());
        disc(way.hops().get(way.hops().size() - 1), palette.way());
    }

    /** Vermilion with a bar across: to be told from the way without its colour. */
    private void paintObstacle(Hop hop) {
        TileLayout.Point from = layout.start(hop.vertex());
        TileLayout.Point to = layout.end(hop.vertex());
        g.setStroke(palette.obstacle());
        g.setLineWidth(WAY_WIDTH + 2);
        g.setLineDashes(5, 7);
        line(from, to);
        g.setLineDashes();
        double x = view.screenX((from.x() + to.x()) / 2);
        double y = view.screenY((from.y() + to.y()) / 2);
        g.setFill(palette.paper());
        g.fillOval(x - MARK - 2, y - MARK - 2, 2 * MARK + 4, 2 * MARK + 4);
        g.setFill(palette.obstacle());
        g.fillOval(x - MARK, y - MARK, 2 * MARK, 2 * MARK);
        g.setStroke(palette.paper());
        g.setLineWidth(2.5);
        g.strokeLine(x - MARK * 0.55, y, x + MARK * 0.55, y);
    }

    void paintSelection(Optional<Hop> hop) {
        hop.ifPresent(
                h -> {
                    TileLayout.Point from = layout.start(h.vertex());
                    TileLayout.Point to = layout.end(h.vertex());
                    double x = view.screenX((from.x() + to.x()) / 2);
                    double y = view.screenY((from.y() + to.y()) / 2);
                    g.setStroke(palette.selection());
                    g.setLineWidth(3);
                    g.strokeOval(x - 14, y - 14, 28, 28);
                });
    }

    private void disc(Hop hop, Color color) {
        TileLayout.Point at = layout.end(hop.vertex());
        g.setFill(color);
        g.fillOval(view.screenX(at.x()) - 5, view.screenY(at.y()) - 5, 10, 10);
    }

    private void line(TileLayout.Point from, TileLayout.Point to) {
        g.strokeLine(
                view.screenX(from.x()),
                view.screenY(from.y()),
                view.screenX(to.x()),
                view.screenY(to.y()));
    }
}
