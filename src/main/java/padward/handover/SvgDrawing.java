package padward.handover;

import java.util.Locale;

/** Drawings as SVG 1.1, to stand inside a page of HTML. */
final class SvgDrawing {
    private SvgDrawing() {}

    /**
     * The drawing as an element.
     *
     * @param width how wide it is shown, points
     */
    static String of(Drawing drawing, double width) {
        StringBuilder out = new StringBuilder();
        out.append(
                String.format(
                        Locale.ROOT,
                        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %1$.1f %2$.1f\""
                                + " style=\"width:%4$.1fpt;max-width:100%%;height:auto\""
                                + " role=\"img\" aria-label=\"%3$s\">",
                        drawing.width(),
                        drawing.height(),
                        escaped("pins of " + drawing.name()),
                        width));
        for (Drawing.Shape shape : drawing.shapes()) {
            if (shape instanceof Drawing.Box box) {
                out.append(
                        String.format(
                                Locale.ROOT,
                                "<rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\""
                                        + " rx=\"%.1f\" fill=\"%s\" stroke=\"%s\""
                                        + " stroke-width=\"%.1f\"/>",
                                box.x(),
                                box.y(),
                                box.width(),
                                box.height(),
                                box.round(),
                                box.fill(),
                                box.line(),
                                box.lineWidth()));
            } else if (shape instanceof Drawing.Words words) {
                out.append(
                        String.format(
                                Locale.ROOT,
                                "<text x=\"%.1f\" y=\"%.1f\" font-size=\"%.1f\" font-weight=\"%s\""
                                        + " fill=\"%s\" text-anchor=\"middle\">%s</text>",
                                words.x(),
                                words.y(),
                                words.size(),
                                words.bold() ? "bold" : "normal",
                                words.color(),
                                escaped(words.text())));
            }
        }
        return out.append("</svg>").toString();
    }

    private static String escaped(String text) {
        return text.replace("&", "&amp;")
                .replace("<", "&lt;")
                .replace(">", "&gt;")
                .replace("\"", "&quot;");
    }
}
