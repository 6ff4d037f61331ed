package padward.ui.watch;

import padward.ui.draw.Palette;
import padward.ui.draw.Surface;

/**
 * Paints the diagram of a circuit: lookup tables are boxes, registers boxes with a double left edge
 * and their clock's name below, pads have round ends, nets of the design are names.
 *
 * @param diagram the diagram
 * @param palette the colours
 * @param scale size relative to the usual
 */
record DiagramPainter(CircuitDiagram diagram, Palette palette, double scale) {
    private static final double LETTERS = 11;
    private static final double ROUND = 6;
    private static final double EDGE = 4;
    private static final double DOT = 2.6;
    private static final double THIN = 1.2;
    private static final double BELOW = 7;

    /** Paints it with its upper left corner at the origin. */
    void paint(Surface out) {
        out.group("diagram", () -> paintAll(out));
    }

    private void paintAll(Surface out) {
        Surface.Line wire = new Surface.Line(palette.route(), 1.4 * scale);
        for (CircuitDiagram.Wire one : diagram.wires()) {
            for (CircuitDiagram.Line line : one.lines()) {
                out.line(
                        scale * line.x0(),
                        scale * line.y0(),
                        scale * line.x1(),
                        scale * line.y1(),
                        wire);
            }
        }
        for (CircuitDiagram.Wire one : diagram.wires()) {
            one.dots()
                    .forEach(
                            d ->
                                    out.fillDisc(
                                            scale * d.x(),
                                            scale * d.y(),
                                            scale * DOT,
                                            palette.route()));
        }
        diagram.boxes().forEach(b -> paint(b, out));
    }

    private void paint(CircuitDiagram.Box box, Surface out) {
        double x = scale * box.x();
        double y = scale * box.y();
        double w = scale * box.w();
        double h = scale * box.h();
        double middle = scale * box.middle();
        Surface.Line rim = new Surface.Line(palette.ink(), THIN * scale);
        switch (box.kind()) {
            case SOURCE ->
                    out.text(box.text(), x + w - 2 * scale, middle, text(Surface.Align.RIGHT));
            case TABLE, REGISTER -> {
                out.fillRect(x, y, w, h, ROUND * scale, palette.site());
                out.outlineRect(x, y, w, h, ROUND * scale, rim);
                boolean register = box.kind() == CircuitDiagram.Kind.REGISTER;
                if (register) {
                    out.line(x + EDGE * scale, y, x + EDGE * scale, y + h, rim);
                }
                double shift = register ? EDGE * scale / 2 : 0;
                out.text(box.text(), x + w / 2 + shift, middle, text(Surface.Align.CENTER));
            }
            case PAD -> {
                out.fillRect(x, y, w, h, h, palette.paper());
                out.outlineRect(x, y, w, h, h, new Surface.Line(palette.route(), 2 * scale));
                out.text(box.text(), x + w / 2, middle, text(Surface.Align.CENTER));
            }
        }
        if (!box.below().isEmpty()) {
            out.text(
                    box.below(),
                    x + w / 2,
                    y + h + BELOW * scale,
                    new Surface.Lettering(LETTERS * scale, Surface.Align.CENTER, palette.faint()));
        }
    }

    private Surface.Lettering text(Surface.Align align) {
        return new Surface.Lettering(LETTERS * scale, align, palette.ink());
    }
}
