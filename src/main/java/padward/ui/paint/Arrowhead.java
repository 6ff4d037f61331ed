package padward.ui.paint;

import javafx.scene.paint.Color;
import padward.ui.draw.Palette;
import padward.ui.draw.Surface;

/** The head of an arrow on a line, which shows where a signal goes. */
final class Arrowhead {
    /** From its tip to its back, pixels. */
    static final double LENGTH = 13;

    private static final double HALF_WIDTH = 6.5;

    private Arrowhead() {}

    /**
     * Paints one.
     *
     * @param x its middle, pixels
     * @param y its middle, pixels
     * @param right how far its direction leads to the right, on any scale; not zero with {@code
     *     down}
     * @param down how far it leads downwards, on the same scale
     */
    static void paint(
            Surface out,
            Palette colors,
            double x,
            double y,
            double right,
            double down,
            Color fill) {
        double length = Math.hypot(right, down);
        double dx = right / length;
        double dy = down / length;
        double half = LENGTH / 2;
        double[] xs = {
            x + dx * half, x - dx * half - dy * HALF_WIDTH, x - dx * half + dy * HALF_WIDTH
        };
        double[] ys = {
            y + dy * half, y - dy * half + dx * HALF_WIDTH, y - dy * half - dx * HALF_WIDTH
        };
        out.polygon(xs, ys, fill, new Surface.Line(colors.paper(), 1));
    }
}
