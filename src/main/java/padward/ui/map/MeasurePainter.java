package padward.ui.map;

import java.util.ArrayList;
import java.util.List;
import javafx.geometry.Rectangle2D;
import padward.ui.design.TileLayout;
import padward.ui.draw.Palette;
import padward.ui.draw.Surface;
import padward.ui.draw.Tag;
import padward.ui.scene.LegendEntry;
import padward.ui.scene.MapLayer;
import padward.ui.scene.MapOverlay;
import padward.ui.scene.MapScene;

/**
 * Paints a measured distance as a ruler: a line with a bar at each end, and its text in the middle.
 *
 * @param from where it begins
 * @param to where it ends
 * @param text what was measured
 */
record MeasurePainter(TileLayout.Point from, TileLayout.Point to, String text)
        implements MapOverlay {
    private static final double WIDTH = 2.5;
    private static final double CASING = 3;
    private static final double BAR = 8;
    private static final double LETTERS = 12.5;
    private static final double AWAY = 16;
    private static final double EDGE = 4;

    @Override
    public void paint(MapScene scene, Surface out) {
        Palette colors = scene.palette();
        double x0 = scene.view().screenX(from.x());
        double y0 = scene.view().screenY(from.y());
        double x1 = scene.view().screenX(to.x());
        double y1 = scene.view().screenY(to.y());
        ruler(out, x0, y0, x1, y1, new Surface.Line(colors.paper(), WIDTH + CASING));
        ruler(out, x0, y0, x1, y1, new Surface.Line(colors.selection(), WIDTH));
    }

    @Override
    public void paintTags(MapScene scene, Surface out) {
        lines(scene).forEach(l -> l.tag().paint(out, scene.palette(), l.left(), l.top()));
    }

    @Override
    public List<Rectangle2D> taken(MapScene scene) {
        return lines(scene).stream()
                .map(l -> new Rectangle2D(l.left(), l.top(), l.tag().width(), l.tag().height()))
                .toList();
    }

    /** A line of the text, with its upper left corner, pixels. */
    private record TextLine(Tag tag, double left, double top) {}

    private List<TextLine> lines(MapScene scene) {
        Palette colors = scene.palette();
        double x0 = scene.view().screenX(from.x());
        double y0 = scene.view().screenY(from.y());
        double x1 = scene.view().screenX(to.x());
        double y1 = scene.view().screenY(to.y());
        double size = scene.letters(LETTERS);
        List<Tag> tags = new ArrayList<>();
        // In one line where the map is wide enough for it.
        boolean whole = new Tag(text, size, colors.selection()).width() <= width(scene);
        for (String line : whole ? List.of(text) : List.of(text.split("; "))) {
            tags.add(new Tag(line, size, colors.selection()));
        }
        double wide = tags.stream().mapToDouble(Tag::width).max().orElse(0);
        double high = tags.stream().mapToDouble(Tag::height).sum();
        double left = (x0 + x1) / 2 - wide / 2;
        // Steep rulers have their text on the side, so that it does not lie on them.
        boolean steep = Math.abs(y1 - y0) > Math.abs(x1 - x0);
        double top = (y0 + y1) / 2 - high / 2;
        if (steep) {
            left += AWAY + wide / 2;
        } else {
            top -= AWAY + high / 2;
        }
        // The legend is below.
        top =
                scene.shows(MapLayer.LEGEND)
                        ? EDGE
                        : Math.max(EDGE, Math.min(scene.view().height() - high - EDGE, top));
        List<TextLine> lines = new ArrayList<>();
        for (Tag tag : tags) {
            double most = scene.view().width() - tag.width() - EDGE;
            lines.add(new TextLine(tag, Math.max(EDGE, Math.min(most, left)), top));
            top += tag.height();
        }
        return lines;
    }

    /** Width for texts on the map. */
    private static double width(MapScene scene) {
        return scene.view().width() - 2 * EDGE;
    }

    private static void ruler(
            Surface out, double x0, double y0, double x1, double y1, Surface.Line line) {
        double length = Math.hypot(x1 - x0, y1 - y0);
        double acrossX = length == 0 ? 0 : -(y1 - y0) / length * BAR;
        double acrossY = length == 0 ? BAR : (x1 - x0) / length * BAR;
        out.line(x0, y0, x1, y1, line);
        out.line(x0 - acrossX, y0 - acrossY, x0 + acrossX, y0 + acrossY, line);
        out.line(x1 - acrossX, y1 - acrossY, x1 + acrossX, y1 + acrossY, line);
    }

    @Override
    public List<LegendEntry> legend(Palette colors) {
        return List.of(
                new LegendEntry(
                        "measured: tiles and least delay",
                        (out, l, r, y) ->
                                ruler(
                                        out,
                                        l,
                                        y,
                                        r,
                                        y,
                                        new Surface.Line(colors.selection(), WIDTH))));
    }
}
