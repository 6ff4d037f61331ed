package padward.ui.draw;

import java.io.StringWriter;
import java.util.Locale;
import javafx.scene.paint.Color;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;

/**
 * A document of SVG as it is written, element by element, with numbers, colours and texts spelled
 * as SVG and XML want them.
 */
final class SvgDocument {
    private static final String NAMESPACE = "http://www.w3.org/2000/svg";
    private static final String LINKS = "http://www.w3.org/1999/xlink";
    private static final String FONTS = "DejaVu Sans, Verdana, sans-serif";

    private final StringWriter text = new StringWriter();
    private final XMLStreamWriter out;

    /**
     * Begins one.
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
            write("title", () -> said(title));
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

    /** What an element holds: its attributes, then what is inside. */
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
            // A string takes everything.
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

    /** Hundredths of a pixel are finer than anyone sees. */
    static String number(double value) {
        String text = String.format(Locale.ROOT, "%.2f", value);
        String shorter = text.replaceFirst("\\.?0+$", "");
        return shorter.equals("-0") ? "0" : shorter;
    }

    /** A colour as {@link Raster#pixel} gives it. */
    static String hex(int pixel) {
        return String.format(Locale.ROOT, "#%06x", pixel & 0xffffff);
    }

    /** What the element is filled with. */
    void filled(Color fill) throws XMLStreamException {
        attributes("fill", hex(Raster.pixel(fill)));
        if (fill.getOpacity() < 1) {
            attributes("fill-opacity", fill.getOpacity());
        }
    }

    /** What it is outlined with. */
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

    /** Place and size of a rectangle; {@code round} is the diameter of its corners. */
    void rect(double x, double y, double w, double h, double round) throws XMLStreamException {
        attributes("x", x, "y", y, "width", Math.max(0, w), "height", Math.max(0, h));
        if (round > 0) {
            attributes("rx", Math.min(round, w) / 2, "ry", Math.min(round, h) / 2);
        }
    }

    /** Text inside the element that is open. */
    void said(String said) throws XMLStreamException {
        out.writeCharacters(printable(said));
    }

    /** What the element shows, by its address. */
    void link(String address) throws XMLStreamException {
        out.writeAttribute("xlink", LINKS, "href", address);
    }

    /** XML 1.0 has no way to write most control characters. */
    private static String printable(String said) {
        return said.codePoints()
                .map(c -> c < 0x20 || c == 0xfffe || c == 0xffff ? '.' : c)
                .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
                .toString();
    }
}
