package padward.handover;

import javax.xml.stream.XMLStreamException;
import padward.base.SvgDocument;

/** Drawings as SVG, for use inside a page. */
final class SvgDrawing {
    private SvgDrawing() {}

    /**
     * The drawing as an element.
     *
     * @param width width on the page, points
     */
    static String of(Drawing drawing, double width) {
        SvgDocument out =
                SvgDocument.inPage(
                        drawing.width(), drawing.height(), width, "pins of " + drawing.name());
        for (Drawing.Shape shape : drawing.shapes()) {
            if (shape instanceof Drawing.Box box) {
                out.write("rect", () -> box(box, out));
            } else if (shape instanceof Drawing.Words words) {
                out.write("text", () -> words(words, out));
            }
        }
        return out.finish();
    }

    private static void box(Drawing.Box box, SvgDocument out) throws XMLStreamException {
        out.rect(box.x(), box.y(), box.width(), box.height(), 2 * box.round());
        out.attributes("fill", box.fill(), "stroke", box.line(), "stroke-width", box.lineWidth());
    }

    private static void words(Drawing.Words words, SvgDocument out) throws XMLStreamException {
        out.attributes("x", words.x(), "y", words.y(), "font-size", words.size());
        out.attributes("font-weight", words.bold() ? "bold" : "normal", "fill", words.color());
        out.attributes("text-anchor", "middle");
        out.text(words.text());
    }
}
