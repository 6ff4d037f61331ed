package padward.ui.play;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import javafx.scene.paint.Color;
import padward.breakout.group.Bus;
import padward.design.RouteTree;
import padward.route.negotiate.RoutingRound;
import padward.ui.design.TileLayout;
import padward.ui.draw.Palette;
import padward.ui.draw.Surface;
import padward.ui.draw.Tag;
import padward.ui.scene.MapOverlay;
import padward.ui.scene.MapPen;
import padward.ui.scene.MapScene;
import padward.ui.scene.ZoomScales;

/**
 * Paints a round of negotiation over the map: each net's tree in its own colour and dashes, shared
 * vertices with their price.
 */
record NegotiationPainter(Optional<Bus.Round> round, List<RoutingRound.PricedVertex> priced)
        implements MapOverlay {
    private static final double LETTERS = 10;
    private static final double[][] DASHES = {{}, {10, 5}, {3, 5}, {12, 4, 3, 4}};

    @Override
    public void paint(MapScene scene, Surface out) {
        out.group("rounds", () -> round.ifPresent(r -> paint(r, scene, out)));
    }

    private void paint(Bus.Round shown, MapScene scene, Surface out) {
        Color[] colors = {
            scene.palette().route(),
            scene.palette().delayLine(),
            scene.palette().frontier(),
            scene.palette().selection()
        };
        List<Optional<RouteTree>> trees = shown.round().trees();
        for (int i = 0; i < trees.size(); i++) {
            Surface.Line line =
                    new Surface.Line(colors[i % colors.length], 3.5, DASHES[i % DASHES.length]);
            trees.get(i).ifPresent(t -> new MapPen(scene, out).tree(t, line));
        }
        priced.forEach(p -> paint(p, scene, out));
    }

    /** The number of nets that want the vertex, and its h and p. */
    private static void paint(RoutingRound.PricedVertex vertex, MapScene scene, Surface out) {
        Palette colors = scene.palette();
        TileLayout.Point from = scene.opened().layout().start(vertex.vertex());
        TileLayout.Point to = scene.opened().layout().end(vertex.vertex());
        double x = scene.view().screenX((from.x() + to.x()) / 2);
        double y = scene.view().screenY((from.y() + to.y()) / 2);
        boolean shared = vertex.users() > 1;
        Color rim = shared ? colors.obstacle() : colors.faint();
        double radius = shared ? scene.letters(8) : 4;
        out.fillDisc(x, y, radius, colors.paper());
        out.outlineDisc(x, y, radius, new Surface.Line(rim, 2));
        if (shared) {
            out.text(
                    String.valueOf(vertex.users()),
                    x,
                    y,
                    new Surface.Lettering(
                            scene.letters(LETTERS), Surface.Align.CENTER, colors.ink()));
        }
        if (shared || scene.scale() >= ZoomScales.NAMES) {
            String price =
                    String.format(
                            Locale.ROOT, "(b + %d ps) × %d", vertex.pricePs(), vertex.times());
            Tag tag = new Tag(price, scene.letters(LETTERS), rim);
            tag.paint(out, colors, x + 10, y - tag.height() / 2);
        }
    }
}
