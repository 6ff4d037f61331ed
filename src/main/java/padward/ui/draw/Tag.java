package padward.ui.draw;

import javafx.scene.paint.Color;

/**
 * A short framed text, legible on any background.
 *
 * @param text the text
 * @param size size of the letters, pixels
 * @param rim colour of the rim
 */
public record Tag(String text, double size, Color rim) {
    private static final double PADDING = 0.5;
    private static final double HIGH = 1.5;
    private static final double ROUND = 0.6;

    /** Width, pixels. */
    public double width() {
        return Surface.Lettering.width(text, size) + 2 * PADDING * size;
    }

    /** Height, pixels. */
    public double height() {
        return HIGH * size;
    }

    /** Paints it with its upper left corner at a point. */
    public void paint(Surface out, Palette palette, double left, double top) {
        double round = ROUND * size;
        out.fillRect(left, top, width(), height(), round, palette.paper());
        out.outlineRect(left, top, width(), height(), round, new Surface.Line(rim, 1));
        out.text(
                text,
                left + width() / 2,
                top + height() / 2,
                new Surface.Lettering(size, Surface.Align.CENTER, palette.ink()));
    }
}
