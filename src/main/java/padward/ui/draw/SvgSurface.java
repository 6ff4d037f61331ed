package padward.ui.draw;

import java.util.Base64;
import java.util.function.Consumer;
import javafx.scene.paint.Color;
import javax.xml.stream.XMLStreamException;
import padward.base.SvgDocument;

/**
 * Draws as SVG ("Scalable Vector Graphics (SVG) 1.1", second edition, W3C Recommendation, 2011):
 * lines stay lines and texts stay texts.
 */
public final class SvgSurface implements Surface {
    private final SvgDocument out;
    private final double width;
    private final double height;

    /**
     * A picture of a size in pixels.
     *
     * @param title what it shows, for readers who cannot see it
     */
    public SvgSurface(double width, double height, String title) {
        this.width = width;
        this.height = height;
        this.out = SvgDocument.file(width, height, title);
    }

    /** The finished document; nothing can be drawn afterwards. */
    public String finish() {
        return out.finish();
    }

    @Override
    public void fillRect(double x, double y, double w, double h, double round, Color fill) {
        out.write(
                "rect",
                () -> {
                    out.rect(x, y, w, h, round);
                    fill(fill);
                });
    }

    @Override
    public void outlineRect(double x, double y, double w, double h, double round, Line line) {
        out.write(
                "rect",
                () -> {
                    out.rect(x, y, w, h, round);
                    out.attributes("fill", "none");
                    stroke(line);
                });
    }

    @Override
    public void fillDisc(double x, double y, double r, Color fill) {
        out.write(
                "circle",
                () -> {
                    out.attributes("cx", x, "cy", y, "r", r);
                    fill(fill);
                });
    }

    @Override
    public void outlineDisc(double x, double y, double r, Line line) {
        out.write(
                "circle",
                () -> {
                    out.attributes("cx", x, "cy", y, "r", r, "fill", "none");
                    stroke(line);
                });
    }

    @Override
    public void line(double x0, double y0, double x1, double y1, Line line) {
        out.write(
                "line",
                () -> {
                    out.attributes("x1", x0, "y1", y0, "x2", x1, "y2", y1);
                    stroke(line);
                });
    }

    @Override
    public void polygon(double[] xs, double[] ys, Color fill, Line line) {
        StringBuilder points = new StringBuilder();
        for (int i = 0; i < xs.length; i++) {
            points.append(i == 0 ? "" : " ").append(SvgDocument.number(xs[i])).append(',');
            points.append(SvgDocument.number(ys[i]));
        }
        out.write(
                "polygon",
                () -> {
                    out.attributes("points", points);
                    fill(fill);
                    stroke(line);
                });
    }

    @Override
    public void text(String text, double x, double y, Lettering lettering) {
        String anchor =
                switch (lettering.align()) {
                    case LEFT -> "start";
                    case CENTER -> "middle";
                    case RIGHT -> "end";
                };
        out.write(
                "text",
                () -> {
                    out.attributes("x", x, "y", y, "font-size", lettering.size());
                    out.attributes("text-anchor", anchor, "dy", "0.35em");
                    fill(lettering.color());
                    if (lettering.degrees() != 0) {
                        String turn =
                                "rotate("
                                        + SvgDocument.number(lettering.degrees())
                                        + " "
                                        + SvgDocument.number(x)
                                        + " "
                                        + SvgDocument.number(y)
                                        + ")";
                        out.attributes("transform", turn);
                    }
                    out.text(text);
                });
    }

    @Override
    public void group(String name, Runnable inside) {
        out.write(
                "g",
                () -> {
                    out.attributes("id", name);
                    inside.run();
                });
    }

    @Override
    public void marks(Consumer<Marks> painter) {
        SvgMarks shapes = new SvgMarks(out, width, height);
        painter.accept(shapes);
        shapes.flush();
    }

    @Override
    public void cells(TileImage cells, double x, double y, double w, double h) {
        String data = Base64.getEncoder().encodeToString(cells.toPng());
        out.write(
                "image",
                () -> {
                    out.rect(x, y, w, h, 0);
                    out.attributes(
                            "preserveAspectRatio", "none", "style", "image-rendering:pixelated");
                    out.link("data:image/png;base64," + data);
                });
    }

    private void fill(Color fill) throws XMLStreamException {
        out.attributes("fill", SvgDocument.hex(Raster.pixel(fill)));
        if (fill.getOpacity() < 1) {
            out.attributes("fill-opacity", fill.getOpacity());
        }
    }

    private void stroke(Line line) throws XMLStreamException {
        out.attributes(
                "stroke",
                SvgDocument.hex(Raster.pixel(line.color())),
                "stroke-width",
                line.width());
        if (line.color().getOpacity() < 1) {
            out.attributes("stroke-opacity", line.color().getOpacity());
        }
        if (line.dashes().length > 0) {
            StringBuilder dashes = new StringBuilder();
            for (double dash : line.dashes()) {
                dashes.append(dashes.isEmpty() ? "" : " ").append(SvgDocument.number(dash));
            }
            out.attributes("stroke-dasharray", dashes);
        }
    }
}
