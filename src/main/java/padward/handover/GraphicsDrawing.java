package padward.handover;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.RoundRectangle2D;
import java.io.IOException;
import java.io.UncheckedIOException;

/** Paints drawings with Java's graphics, which here end as vectors in a PDF. */
final class GraphicsDrawing {
    private GraphicsDrawing() {}

    static void paint(Drawing drawing, Graphics2D to, Outlines outlines) {
        for (Drawing.Shape shape : drawing.shapes()) {
            if (shape instanceof Drawing.Box box) {
                RoundRectangle2D outline =
                        new RoundRectangle2D.Double(
                                box.x(),
                                box.y(),
                                box.width(),
                                box.height(),
                                2 * box.round(),
                                2 * box.round());
                to.setColor(Color.decode(box.fill()));
                to.fill(outline);
                to.setColor(Color.decode(box.line()));
                to.setStroke(new BasicStroke((float) box.lineWidth()));
                to.draw(outline);
            } else if (shape instanceof Drawing.Words words) {
                to.setColor(Color.decode(words.color()));
                try {
                    to.fill(outlines.of(words));
                } catch (IOException fault) {
                    throw new UncheckedIOException("the font's own data", fault);
                }
            }
        }
    }
}
