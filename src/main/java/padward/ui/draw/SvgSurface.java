package padward.ui.draw;

import java.io.StringWriter;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.function.Consumer;
import javafx.scene.paint.Color;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;

/**
 * Writes what is drawn as SVG ("Scalable Vector Graphics (SVG) 1.1", second edition, W3C
 * Recommendation, 2011): lines stay lines and texts stay texts.
 */
public final class SvgSurface implements Surface {
    private static final String NAMESPACE = "http://www.w3.org/2000/svg";
    private static final String LINKS = "http://www.w3.org/1999/xlink";
    private static final String FONTS = "DejaVu Sans, Verdana, sans-serif";

    private final StringWriter text = new StringWriter();
    private final XMLStreamWriter out;
    private final double width;
    private final double height;

    /**
     * A picture of a size in pixels.
     *
     * @param title what it shows, for those who cannot see it
     */
    public SvgSurface(double width, double height, String title) {
        this.width = width;
        this.height = height;
        try {
            out = XMLOutputFactory.newInstance().createXMLStreamWriter(text);
            out.writeStartDocument("UTF-8", "1.0");
            out.writeCharacters("\n");
            out.setDefaultNamespace(NAMESPACE);
            out.writeStartElement(NAMESPACE, "svg");
            out.writeDefaultNamespace(NAMESPACE);
            out.writeNamespace("xlink", LINKS);
            attributes("width", width, "height", height);
            out.writeAttribute("viewBox", "0 0 " + number(width) + " " + number(height));
            out.writeAttribute("font-family", FONTS);
            out.writeAttribute("stroke-linecap", "round");
            out.writeAttribute("stroke-linejoin", "round");
            write("title", () -> out.writeCharacters(printable(title)));
        } catch (XMLStreamException fault) {
            throw new IllegalStateException(fault);
        }
    }

    /** The finished document; nothing can be drawn afterwards. */
    public String finish() {
        try {
            out.writeEndDocument();
            out.close();
        } catch (XMLStreamException fault) {
            throw new IllegalStateException(fault);
        }
        return text + "\n";
    }

    private interface Content {
        void write() throws XMLStreamException;
    }

    /** An element on a line of its own. */
    private void write(String name, Content content) {
        try {
            out.writeCharacters("\n");
            out.writeStartElement(NAMESPACE, name);
            content.write();
            out.writeEndElement();
        } catch (XMLStreamException fault) {
            // A string takes everything.
            throw new IllegalStateException(fault);
        }
    }

    private void attributes(Object... namesAndValues) throws XMLStreamException {
        for (int i = 0; i < namesAndValues.length; i += 2) {
            Object value = namesAndValues[i + 1];
            out.writeAttribute(
                    (String) namesAndValues[i],
                    value instanceof Double d ? number(d) : value.toString());
        }
    }

    /** Hundredths of a pixel are finer than anyone sees. */
    private static String number(double value) {
        String text = String.format(Locale.ROOT, "%.2f", value);
        String shorter = text.replaceFirst("\\.?0+$", "");
        return shorter.equals("-0") ? "0" : shorter;
    }

    private static String hex(int pixel) {
        return String.format(Locale.ROOT, "#%06x", pixel & 0xffffff);
    }

    private void filled(Color fill) throws XMLStreamException {
        attributes("fill", hex(Raster.pixel(fill)));
        if (fill.getOpacity() < 1) {
            attributes("fill-opacity", fill.getOpacity());
        }
    }

    private void stroked(Line line) throws XMLStreamException {
        attributes("stroke", hex(Raster.pixel(line.color())), "stroke-width", line.width());
        if (line.color().getOpacity() < 1) {
            attributes("stroke-opacity", line.color().getOpacity());
        }
        if (line.dashes().length > 0) {
            StringBuilder dashes = new StringBuilder();
            for (double dash : line.dashes()) {
                dashes.append(dashes.isEmpty() ? "" : " ").append(number(dash));
            }
            attributes("stroke-dasharray", dashes);
        }
    }

    private void rect(double x, double y, double w, double h, double round)
            throws XMLStreamException {
        attributes("x", x, "y", y, "width", Math.max(0, w), "height", Math.max(0, h));
        if (round > 0) {
            attributes("rx", Math.min(round, w) / 2, "ry", Math.min(round, h) / 2);
        }
    }

    @Override
    public void fillRect(double x, double y, double w, double h, double round, Color fill) {
        write(
                "rect",
                () -> {
                    rect(x, y, w, h, round);
                    filled(fill);
                });
    }

    @Override
    public void outlineRect(double x, double y, double w, double h, double round, Line line) {
        write(
                "rect",
                () -> {
                    rect(x, y, w, h, round);
                    attributes("fill", "none");
                    stroked(line);
                });
    }

    @Override
    public void fillDisc(double x, double y, double r, Color fill) {
        write(
                "circle",
                () -> {
                    attributes("cx", x, "cy", y, "r", r);
                    filled(fill);
                });
    }

    @Override
    public void outlineDisc(double x, double y, double r, Line line) {
        write(
                "circle",
                () -> {
                    attributes("cx", x, "cy", y, "r", r, "fill", "none");
                    stroked(line);
                });
    }

    @Override
    public void line(double x0, double y0, double x1, double y1, Line line) {
        write(
                "line",
                () -> {
                    attributes("x1", x0, "y1", y0, "x2", x1, "y2", y1);
                    stroked(line);
                });
    }

    @Override
    public void polygon(double[] xs, double[] ys, Color fill, Line line) {
        StringBuilder points = new StringBuilder();
        for (int i = 0; i < xs.length; i++) {
            points.append(i == 0 ? "" : " ").append(number(xs[i])).append(',');
            points.append(number(ys[i]));
        }
        write(
                "polygon",
                () -> {
                    attributes("points", points);
                    filled(fill);
                    stroked(line);
                });
    }

    @Override
    public void text(String said, double x, double y, Lettering lettering) {
        String anchor =
                switch (lettering.align()) {
                    case LEFT -> "start";
                    case CENTER -> "middle";
                    case RIGHT -> "end";
                };
        write(
                "text",
                () -> {
                    attributes("x", x, "y", y, "font-size", lettering.size());
                    attributes("text-anchor", anchor, "dy", "0.35em");
                    filled(lettering.color());
                    if (lettering.degrees() != 0) {
                        String turn =
                                "rotate("
                                        + number(lettering.degrees())
                                        + " "
                                        + number(x)
                                        + " "
                                        + number(y)
                                        + ")";
                        attributes("transform", turn);
                    }
                    out.writeCharacters(printable(said));
                });
    }

    /** XML 1.0 has no way to write most control characters. */
    private static String printable(String said) {
        return said.codePoints()
                .map(c -> c < 0x20 || c == 0xfffe || c == 0xffff ? '.' : c)
                .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
                .toString();
    }

    @Override
    public void group(String name, Runnable inside) {
        write(
                "g",
                () -> {
                    attributes("id", name);
                    inside.run();
                });
    }

    @Override
    public void marks(Consumer<Marks> painter) {
        Shapes shapes = new Shapes();
        painter.accept(shapes);
        shapes.flush();
    }

    @Override
    public void cells(Cells cells, double x, double y, double w, double h) {
        String data = Base64.getEncoder().encodeToString(cells.toPng());
        write(
                "image",
                () -> {
                    rect(x, y, w, h, 0);
                    attributes("preserveAspectRatio", "none", "style", "image-rendering:pixelated");
                    out.writeAttribute("xlink", LINKS, "href", "data:image/png;base64," + data);
                });
    }

    /** Lines of one colour and width become one path, as long as nothing covers them. */
    private final class Shapes implements Marks {
        private final Map<String, StringBuilder> paths = new LinkedHashMap<>();

        @Override
        public void line(double x0, double y0, double x1, double y1, int wide, int pixel) {
            boolean outside =
                    Math.max(x0, x1) < 0
                            || Math.max(y0, y1) < 0
                            || Math.min(x0, x1) > width
                            || Math.min(y0, y1) > height;
            if (!outside) {
                paths.computeIfAbsent(hex(pixel) + " " + wide, k -> new StringBuilder())
                        .append('M')
                        .append(number(x0))
                        .append(' ')
                        .append(number(y0))
                        .append('L')
                        .append(number(x1))
                        .append(' ')
                        .append(number(y1));
            }
        }

        @Override
        public void box(double x, double y, double w, double h, double round, int inside, int rim) {
            flush();
            write(
                    "rect",
                    () -> {
                        rect(x + 0.5, y + 0.5, w - 1, h - 1, Math.max(0, round - 1));
                        attributes("fill", hex(inside), "stroke", hex(rim));
                    });
        }

        void flush() {
            paths.forEach(
                    (style, path) -> {
                        String[] parts = style.split(" ");
                        write(
                                "path",
                                () ->
                                        attributes(
                                                "d",
                                                path,
                                                "fill",
                                                "none",
                                                "stroke",
                                                parts[0],
                                                "stroke-width",
                                                parts[1]));
                    });
            paths.clear();
        }
    }
}
