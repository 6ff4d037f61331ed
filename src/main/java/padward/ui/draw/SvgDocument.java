package padward.ui.draw;

import java.io.StringWriter;
import java.util.Locale;
import javafx.scene.paint.Color;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;

/**
 * Writes an SVG document, element by element, with numbers, colours and texts as SVG and XML
 * require them.
 */
final class SvgDocument {
    private static final String NAMESPACE = "http://www.w3.org/2000/svg";
    private static final String LINKS = "http://www.w3.org/1999/xlink";
    private static final String FONTS = "DejaVu Sans, Verdana, sans-serif";

    private final StringWriter text = new StringWriter();
    private final XMLStreamWriter out;

    /**
     * Begins a document.
     *
     * @param width pixels
     * @param height pixels
     * @param title what it shows
     */
    SvgDocument(double width, double height, String title) {
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
            write("title", () -> text(title));
        } catch (XMLStreamException fault) {
            throw new IllegalStateException(fault);
        }
    }

    /** The finished document; nothing can be written afterwards. */
    String finish() {
        try {
            out.writeEndDocument();
            out.close();
        } catch (XMLStreamException fault) {
            throw new IllegalStateException(fault);
        }
        return text + "\n";
    }

    /** The content of an element: its attributes, then what is inside. */
    interface Content {
        void write() throws XMLStreamException;
    }

    /** An element on a line of its own. */
    void write(String name, Content content) {
        try {
            out.writeCharacters("\n");
            out.writeStartElement(NAMESPACE, name);
            content.write();
            out.writeEndElement();
        } catch (XMLStreamException fault) {
            // Writing to a string never fails.
            throw new IllegalStateException(fault);
        }
    }

    /** Attributes of the element that is open: name, value, name, value. */
    void attributes(Object... namesAndValues) throws XMLStreamException {
        for (int i = 0; i < namesAndValues.length; i += 2) {
            Object value = namesAndValues[i + 1];
            out.writeAttribute(
                    (String) namesAndValues[i],
                    value instanceof Double d ? number(d) : value.toString());
        }
    }

    /** Rounded to hundredths of a pixel, which is finer than visible. */
    static String number(double value) {
        String text = String.format(Locale.ROOT, "%.2f", value);
        String shorter = text.replaceFirst("\\.?0+$", "");
        return shorter.equals("-0") ? "0" : shorter;
    }

    /** A colour as from {@link Raster#pixel}. */
    static String hex(int pixel) {
        return String.format(Locale.ROOT, "#%06x", pixel & 0xffffff);
    }

    /** The fill of the element. */
    void filled(Color fill) throws XMLStreamException {
        attributes("fill", hex(Raster.pixel(fill)));
        if (fill.getOpacity() < 1) {
            attributes("fill-opacity", fill.getOpacity());
        }
    }

    /** The outline of the element. */
    void stroked(Surface.Line line) throws XMLStreamException {
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

    /** Position and size of a rectangle; {@code round} is the diameter of its corners. */
    void rect(double x, double y, double w, double h, double round) throws XMLStreamException {
        attributes("x", x, "y", y, "width", Math.max(0, w), "height", Math.max(0, h));
        if (round > 0) {
            attributes("rx", Math.min(round, w) / 2, "ry", Math.min(round, h) / 2);
        }
    }

    /** Text inside the element that is open. */
    void text(String text) throws XMLStreamException {
        out.writeCharacters(printable(text));
    }

    /** The address of what the element shows. */
    void link(String address) throws XMLStreamException {
        out.writeAttribute("xlink", LINKS, "href", address);
    }

    /** XML 1.0 cannot express most control characters. */
    private static String printable(String text) {
        return text.codePoints()
                .map(c -> c < 0x20 || c == 0xfffe || c == 0xffff ? '.' : c)
                .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
                .toString();
    }
}
