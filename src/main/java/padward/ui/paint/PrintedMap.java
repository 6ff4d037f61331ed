package padward.ui.paint;

import java.util.EnumSet;
import java.util.Set;
import padward.fabric.Fabric;
import padward.ui.draw.Surface;
import padward.ui.scene.MapLayer;
import padward.ui.scene.MapScene;

/**
 * A picture of the map for a file or for paper: the map, and below it, so that it covers nothing,
 * what is shown, a scale in tiles, and the legend.
 */
public final class PrintedMap {
    private static final double LETTERS = 12;
    private static final double GAP = 10;

    /** The scale is at the most this long, pixels. */
    private static final double MOST_SCALE = 160;

    private static final double END = 5;

    private final MapScene scene;
    private final double legendHeight;
    private final double size;

    /** Of what a scene shows; its palette should be for paper. */
    public PrintedMap(MapScene shown) {
        Set<MapLayer> layers = EnumSet.copyOf(shown.layers());
        layers.remove(MapLayer.LEGEND);
        this.scene = shown.showing(layers);
        this.size = scene.letters(LETTERS);
        this.legendHeight = LegendPainter.heightBelow(scene);
    }

    /** Width, pixels. */
    public double width() {
        return scene.view().width();
    }

    /** Height, pixels. */
    public double height() {
        return Math.ceil(scene.view().height() + head() + legendHeight + GAP);
    }

    private double head() {
        return 2.6 * size;
    }

    /** Paints it. */
    public void paint(Surface out) {
        MapPicture.paint(scene, out);
        out.group("about", () -> paintBelow(out));
    }

    private void paintBelow(Surface out) {
        double top = scene.view().height();
        Surface.Line line = new Surface.Line(scene.palette().box(), 1);
        out.fillRect(0, top, width(), height() - top, 0, scene.palette().paper());
        out.line(0, top, width(), top, line);
        double y = top + head() / 2;
        // Far away, the map has a scale of its own.
        boolean scaled = new StructurePainter(scene, out).isWanted();
        double left = scaled ? GAP : paintScale(out, GAP, y) + 2 * GAP;
        out.text(
                about(),
                left,
                y,
                new Surface.Lettering(size, Surface.Align.LEFT, scene.palette().ink()));
        LegendPainter.below(scene, out).paintBelow(top + head());
    }

    private double paintScale(Surface out, double left, double y) {
        int tiles = 1;
        for (int next : new int[] {2, 5, 10, 20, 50, 100, 200, 500, 1000}) {
            if (next * scene.scale() <= MOST_SCALE) {
                tiles = next;
            }
        }
        double right = left + tiles * scene.scale();
        Surface.Line ink = new Surface.Line(scene.palette().ink(), 1.5);
        out.line(left, y, right, y, ink);
        out.line(left, y - END, left, y + END, ink);
        out.line(right, y - END, right, y + END, ink);
        String text = tiles == 1 ? "1 tile" : tiles + " tiles";
        out.text(
                text,
                right + GAP,
                y,
                new Surface.Lettering(size, Surface.Align.LEFT, scene.palette().ink()));
        return right + GAP + Surface.Lettering.width(text, size);
    }

    private String about() {
        Fabric fabric = scene.opened().design().fabric();
        int left = column(scene.view().worldX(0), fabric.columns());
        int right = column(scene.view().worldX(width()), fabric.columns());
        int bottom = column(scene.view().worldY(scene.view().height()), fabric.rows());
        int top = column(scene.view().worldY(0), fabric.rows());
        return scene.opened().design().name()
                + " on "
                + fabric.info().name()
                + ", tiles x"
                + left
                + "y"
                + bottom
                + " to x"
                + right
                + "y"
                + top;
    }

    private static int column(double world, int count) {
        return (int) Math.max(0, Math.min(count - 1.0, Math.floor(world)));
    }
}
