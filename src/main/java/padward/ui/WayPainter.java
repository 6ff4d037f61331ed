package padward.ui;

import java.util.List;
import java.util.Optional;
import javafx.geometry.VPos;
import javafx.scene.canvas.GraphicsContext;
import javafx.scene.paint.Color;
import javafx.scene.shape.StrokeLineCap;
import javafx.scene.shape.StrokeLineJoin;
import javafx.scene.text.Font;
import javafx.scene.text.TextAlignment;
import padward.breakout.Hop;
import padward.breakout.Obstacle;
import padward.breakout.Way;
import padward.design.Net;
import padward.design.RouteTree;
import padward.fabric.Fabric;

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

    /** Another way, thinner and dashed. */
    void paintAlternative(Way way) {
        g.setStroke(palette.alternative());
        g.setLineWidth(2.5);
        g.setLineDashes(9, 6);
        lines(way);
        g.setLineDashes();
        ring(way.hops().get(way.hops().size() - 1));
    }

    void paintWay(Way way) {
        g.setStroke(palette.way());
        g.setLineWidth(WAY_WIDTH);
        lines(way);
        disc(way.hops().get(0), palette.way());
        ring(way.hops().get(way.hops().size() - 1));
        way.hops().stream().filter(h -> h.obstacle().isPresent()).forEach(this::paintObstacle);
    }

    private void lines(Way way) {
        for (int i = 0; i < way.hops().size(); i++) {
            int vertex = way.hops().get(i).vertex();
            if (i > 0) {
                boolean last = i == way.hops().size() - 1;
                TileLayout.Point to = last ? edge(vertex) : layout.start(vertex);
                line(layout.end(way.hops().get(i - 1).vertex()), to);
            }
            if (i < way.hops().size() - 1) {
                line(layout.start(vertex), layout.end(vertex));
            }
        }
    }

    /** The way stops at the pill's inner edge, so that the pad's name stays legible. */
    private TileLayout.Point edge(int pad) {
        return layout.innerEdge(pad);
    }

    /** Each obstacle once, hatched over the whole site where it is one, and named. */
    void paintObstacles(List<Obstacle> obstacles, Way way, Fabric fabric) {
        for (Obstacle obstacle : obstacles) {
            int vertex =
                    obstacle.hops().isEmpty()
                            ? fabric.site(fabric.findSite(obstacle.resource())).firstPin()
                            : way.hops().get(obstacle.hops().get(0)).vertex();
            int site = fabric.siteOf(vertex);
            TileLayout.Point from = layout.start(vertex);
            TileLayout.Point to = layout.end(vertex);
            double x = view.screenX((from.x() + to.x()) / 2);
            double y = view.screenY((from.y() + to.y()) / 2);
            if (site != Fabric.NOTHING) {
                TileLayout.Box box = layout.site(site);
                hatch(box);
                x = view.screenX(box.centreX());
                y = view.screenY(box.centreY());
            }
            bar(x, y);
            name(obstacle.occupant().name(), x, y);
        }
    }

    private void hatch(TileLayout.Box box) {
        double x = view.screenX(box.x());
        double y = view.screenY(box.y() + box.height());
        double w = box.width() * view.scale();
        double h = box.height() * view.scale();
        g.save();
        g.beginPath();
        g.rect(x, y, w, h);
        g.clip();
        g.setStroke(palette.obstacle());
        g.setLineWidth(1.6);
        for (double at = x - h; at < x + w; at += 6) {
            g.strokeLine(at, y + h, at + h, y);
        }
        g.restore();
        g.setStroke(palette.obstacle());
        g.setLineWidth(2.5);
        g.strokeRoundRect(x, y, w, h, 6, 6);
    }

    private void bar(double x, double y) {
        g.setFill(palette.paper());
        g.fillOval(x - MARK - 2, y - MARK - 2, 2 * MARK + 4, 2 * MARK + 4);
        g.setFill(palette.obstacle());
        g.fillOval(x - MARK, y - MARK, 2 * MARK, 2 * MARK);
        g.setStroke(palette.paper());
        g.setLineWidth(2.5);
        g.strokeLine(x - MARK * 0.55, y, x + MARK * 0.55, y);
    }

    /** The name stands on paper of its own, towards the middle of the view, off the pads. */
    private void name(String name, double x, double y) {
        double wide = name.length() * 6.7 + 10;
        double beside = x > view.width() / 2 ? x - wide - 10 : x + 10;
        double left = Math.max(4, Math.min(view.width() - wide - 4, beside));
        double top = y > 50 ? y - 44 : y + 24;
        g.setFill(palette.paper());
        g.fillRoundRect(left, top, wide, 18, 8, 8);
        g.setStroke(palette.obstacle());
        g.setLineWidth(1);
        g.strokeRoundRect(left, top, wide, 18, 8, 8);
        g.setFill(palette.ink());
        g.setFont(Font.font(12));
        g.setTextAlign(TextAlignment.CENTER);
        g.setTextBaseline(VPos.CENTER);
        g.fillText(name, left + wide / 2, top + 9);
    }

    private void ring(Hop pad) {
        TileLayout.Box box = layout.pillAt(pad.vertex());
        double w = box.width() * view.scale();
        double h = box.height() * view.scale();
        double round = Math.min(w, h);
        g.setStroke(palette.way());
        g.setLineWidth(WAY_WIDTH);
        g.strokeRoundRect(
                view.screenX(box.x()), view.screenY(box.y() + box.height()), w, h, round, round);
    }

    /** Vermilion dashes over the part of the way that is held. */
    private void paintObstacle(Hop hop) {
        g.setStroke(palette.obstacle());
        g.setLineWidth(WAY_WIDTH + 2);
        g.setLineDashes(5, 7);
        line(layout.start(hop.vertex()), layout.end(hop.vertex()));
        g.setLineDashes();
    }

    void paintSelection(Optional<Hop> hop) {
        hop.ifPresent(h -> paintFound(h.vertex()));
    }

    /** A ring around a vertex that was searched for. */
    void paintFound(int vertex) {
        TileLayout.Point from = layout.start(vertex);
        TileLayout.Point to = layout.end(vertex);
        double x = view.screenX((from.x() + to.x()) / 2);
        double y = view.screenY((from.y() + to.y()) / 2);
        g.setStroke(palette.selection());
        g.setLineWidth(3);
        g.strokeOval(x - 14, y - 14, 28, 28);
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
