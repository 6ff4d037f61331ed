package padward.base;

import java.io.StringWriter;
import java.util.Locale;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;

/**
 * Writes SVG 1.1 (W3C Recommendation, second edition, 2011), element by element, with numbers,
 * colours and texts as SVG and XML require them. Either a file of its own or an element inside an
 * XHTML page.
 */
public final class SvgDocument {
    private static final String NAMESPACE = "http://www.w3.org/2000/svg";
    private static final String LINKS = "http://www.w3.org/1999/xlink";
    private static final String FONTS = "DejaVu Sans, Verdana, sans-serif";

    private final StringWriter text = new StringWriter();
    private final XMLStreamWriter out;

    private SvgDocument() throws XMLStreamException {
        out = XMLOutputFactory.newInstance().createXMLStreamWriter(text);
        out.setDefaultNamespace(NAMESPACE);
    }

    /**
     * Begins a file.
     *
     * @param width pixels
     * @param height pixels
     * @param title what it shows
     */
    public static SvgDocument file(double width, double height, String title) {
        try {
            SvgDocument document = new SvgDocument();
            XMLStreamWriter out = document.out;
            out.writeStartDocument("UTF-8", "1.0");
            out.writeCharacters("\n");
            document.begin();
            out.writeNamespace("xlink", LINKS);
            document.attributes("width", width, "height", height);
            document.attributes("viewBox", viewBox(width, height), "font-family", FONTS);
            document.attributes("stroke-linecap", "round", "stroke-linejoin", "round");
            document.write("title", () -> document.text(title));
            return document;
        } catch (XMLStreamException fault) {
            throw impossible(fault);
        }
    }

    /**
     * Begins an element inside a page.
     *
     * @param width width of the drawing, points
     * @param height height of the drawing, points
     * @param shownWidth width on the page, points; the page narrows it if it must
     * @param label what it shows, for readers who cannot see it
     */
    public static SvgDocument inPage(double width, double height, double shownWidth, String label) {
        try {
            SvgDocument element = new SvgDocument();
            element.begin();
            String style = "width:" + number(shownWidth) + "pt;max-width:100%;height:auto";
            element.attributes("viewBox", viewBox(width, height), "style", style);
            element.attributes("role", "img", "aria-label", label);
            return element;
        } catch (XMLStreamException fault) {
            throw impossible(fault);
        }
    }

    private void begin() throws XMLStreamException {
        out.writeStartElement(NAMESPACE, "svg");
        out.writeDefaultNamespace(NAMESPACE);
    }

    private static String viewBox(double width, double height) {
        return "0 0 " + number(width) + " " + number(height);
    }

    /** Writing to a string never fails. */
    private static IllegalStateException impossible(XMLStreamException fault) {
        return new IllegalStateException(fault);
    }

    /** The finished document; nothing can be written afterwards. */
    public String finish() {
        try {
            out.writeEndDocument();
            out.close();
        } catch (XMLStreamException fault) {
            throw impossible(fault);
        }
        return text + "\n";
    }

    /** The content of an element: its attributes, then what is inside. */
    public interface Content {
        void write() throws XMLStreamException;
    }

    /** An element on a line of its own. */
    public void write(String name, Content content) {
        try {
            out.writeCharacters("\n");
            out.writeStartElement(NAMESPACE, name);
            content.write();
            out.writeEndElement();
        } catch (XMLStreamException fault) {
            throw impossible(fault);
        }
    }

    /** Attributes of the element that is open: name, value, name, value. */
    public void attributes(Object... namesAndValues) throws XMLStreamException {
        for (int i = 0; i < namesAndValues.length; i += 2) {
            Object value = namesAndValues[i + 1];
            out.writeAttribute(
                    (String) namesAndValues[i],
                    value instanceof Double d ? number(d) : Xml.legal(value.toString()));
        }
    }

    /** Rounded to hundredths of a pixel, which is finer than visible. */
    public static String number(double value) {
        String text = String.format(Locale.ROOT, "%.2f", value);
        String shorter = text.replaceFirst("\\.?0+$", "");
        return shorter.equals("-0") ? "0" : shorter;
    }

    /** A colour by the lowest 24 bits: red, green, blue. */
    public static String hex(int pixel) {
        return String.format(Locale.ROOT, "#%06x", pixel & 0xffffff);
    }

    /** Position and size of a rectangle; {@code round} is the diameter of its corners. */
    public void rect(double x, double y, double w, double h, double round)
            throws XMLStreamException {
        attributes("x", x, "y", y, "width", Math.max(0, w), "height", Math.max(0, h));
        if (round > 0) {
            attributes("rx", Math.min(round, w) / 2, "ry", Math.min(round, h) / 2);
        }
    }

    /** Text inside the element that is open. */
    public void text(String text) throws XMLStreamException {
        out.writeCharacters(Xml.legal(text));
    }

    /** The address of what the element shows; in files only. */
    public void link(String address) throws XMLStreamException {
        out.writeAttribute("xlink", LINKS, "href", address);
    }
}
