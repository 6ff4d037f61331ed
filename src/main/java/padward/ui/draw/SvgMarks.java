package padward.ui.draw;

import java.util.LinkedHashMap;
import java.util.Map;
import padward.base.SvgDocument;

/** Joins lines of one colour and width into one path, as long as nothing is drawn over them. */
final class SvgMarks implements Marks {
    private final SvgDocument out;
    private final double width;
    private final double height;
    private final Map<Stroke, StringBuilder> paths = new LinkedHashMap<>();

    private record Stroke(int pixel, int wide) {}

    /** Lines outside a picture of this size are left out. */
    SvgMarks(SvgDocument out, double width, double height) {
        this.out = out;
        this.width = width;
        this.height = height;
    }

    @Override
    public void line(double x0, double y0, double x1, double y1, int wide, int pixel) {
        boolean outside =
                Math.max(x0, x1) < 0
                        || Math.max(y0, y1) < 0
                        || Math.min(x0, x1) > width
                        || Math.min(y0, y1) > height;
        if (!outside) {
            paths.computeIfAbsent(new Stroke(pixel, wide), k -> new StringBuilder())
                    .append('M')
                    .append(SvgDocument.number(x0))
                    .append(' ')
                    .append(SvgDocument.number(y0))
                    .append('L')
                    .append(SvgDocument.number(x1))
                    .append(' ')
                    .append(SvgDocument.number(y1));
        }
    }

    @Override
    public void box(double x, double y, double w, double h, double round, int inside, int rim) {
        flush();
        out.write(
                "rect",
                () -> {
                    out.rect(x + 0.5, y + 0.5, w - 1, h - 1, Math.max(0, round - 1));
                    out.attributes("fill", SvgDocument.hex(inside), "stroke", SvgDocument.hex(rim));
                });
    }

    /** Writes the paths; what is drawn afterwards is on top of them. */
    void flush() {
        paths.forEach(
                (stroke, path) ->
                        out.write(
                                "path",
                                () -> {
                                    out.attributes("d", path, "fill", "none");
                                    out.attributes("stroke", SvgDocument.hex(stroke.pixel()));
                                    out.attributes("stroke-width", stroke.wide());
                                }));
        paths.clear();
    }
}
