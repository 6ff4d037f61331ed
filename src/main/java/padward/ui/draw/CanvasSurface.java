package padward.ui.draw;

import java.util.function.Consumer;
import javafx.geometry.VPos;
import javafx.scene.canvas.GraphicsContext;
import javafx.scene.paint.Color;
import javafx.scene.shape.StrokeLineCap;
import javafx.scene.shape.StrokeLineJoin;
import javafx.scene.text.Font;
import javafx.scene.text.TextAlignment;

/** Draws on a canvas; numerous small shapes are first drawn into one picture. */
public final class CanvasSurface implements Surface {
    private final GraphicsContext g;
    private final Raster raster;
    private Line last;

    /**
     * @param raster as large as the picture; used once per picture
     */
    public CanvasSurface(GraphicsContext g, Raster raster) {
        this.g = g;
        this.raster = raster;
        g.setLineCap(StrokeLineCap.ROUND);
        g.setLineJoin(StrokeLineJoin.ROUND);
        g.setTextBaseline(VPos.CENTER);
    }

    private void use(Line line) {
        if (line == last) {
            return;
        }
        last = line;
        g.setStroke(line.color());
        g.setLineWidth(line.width());
        g.setLineDashes(line.dashes());
    }

    @Override
    public void fillRect(double x, double y, double w, double h, double round, Color fill) {
        g.setFill(fill);
        if (round > 0) {
            g.fillRoundRect(x, y, w, h, round, round);
        } else {
            g.fillRect(x, y, w, h);
        }
    }

    @Override
    public void outlineRect(double x, double y, double w, double h, double round, Line line) {
        use(line);
        g.strokeRoundRect(x, y, w, h, round, round);
    }

    @Override
    public void fillDisc(double x, double y, double r, Color fill) {
        g.setFill(fill);
        g.fillOval(x - r, y - r, 2 * r, 2 * r);
    }

    @Override
    public void outlineDisc(double x, double y, double r, Line line) {
        use(line);
        g.strokeOval(x - r, y - r, 2 * r, 2 * r);
    }

    @Override
    public void line(double x0, double y0, double x1, double y1, Line line) {
        use(line);
        g.strokeLine(x0, y0, x1, y1);
    }

    @Override
    public void polygon(double[] xs, double[] ys, Color fill, Line line) {
        g.setFill(fill);
        g.fillPolygon(xs, ys, xs.length);
        use(line);
        g.strokePolygon(xs, ys, xs.length);
    }

    @Override
    public void text(String text, double x, double y, Lettering lettering) {
        g.setFont(Font.font(lettering.size()));
        g.setTextAlign(TextAlignment.valueOf(lettering.align().name()));
        g.setFill(lettering.color());
        if (lettering.degrees() == 0) {
            g.fillText(text, x, y);
            return;
        }
        g.save();
        g.translate(x, y);
        g.rotate(lettering.degrees());
        g.fillText(text, 0, 0);
        g.restore();
    }

    @Override
    public void group(String name, Runnable inside) {
        inside.run();
    }

    @Override
    public void marks(Consumer<Marks> painter) {
        raster.clear();
        g.setImageSmoothing(false);
        painter.accept(raster);
        g.drawImage(raster.image(), 0, 0, raster.viewWidth(), raster.viewHeight());
    }

    @Override
    public void cells(TileImage cells, double x, double y, double w, double h) {
        g.setImageSmoothing(false);
        g.drawImage(cells.image(), x, y, w, h);
    }
}
