package padward.ui.paint;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javafx.geometry.Rectangle2D;
import javafx.scene.paint.Color;
import padward.fabric.Fabric;
import padward.ui.draw.Palette;
import padward.ui.draw.Surface;
import padward.ui.draw.SvgSurface;
import padward.ui.draw.Viewport;
import padward.ui.scene.MapLayer;
import padward.ui.scene.MapScene;
import padward.ui.scene.ZoomScales;

/**
 * Paints what the marks on the map mean, only those that it shows: in the lower left corner, or the
 * lower right one where that covers less of the fabric.
 */
final class LegendPainter {
    private static final double LETTERS = 12;

    /** Distance from the edges of the map, pixels. */
    static final double GAP = 10;

    /** Width of a map on which the letters have their usual size, and the smallest they become. */
    private static final double COMFORT = 640;

    private static final double LEAST = 0.78;

    /** Height of a row, width of a sample and padding, relative to the size of letters. */
    private static final double ROW = 1.65;

    private static final double SAMPLE = 2.6;
    private static final double PADDING = 0.7;

    private static final String NO_ROOM = "No room for the legend: make the window larger";

    private final MapScene scene;
    private final Surface out;
    private final Palette colors;
    private final double size;

    /** On the map, with smaller letters where the map is small. */
    LegendPainter(MapScene scene, Surface out) {
        this(scene, out, Math.max(LEAST, Math.min(1, scene.view().width() / COMFORT)));
    }

    private LegendPainter(MapScene scene, Surface out, double relative) {
        this.scene = scene;
        this.out = out;
        this.colors = scene.palette();
        this.size = scene.letters(LETTERS) * relative;
    }

    /** Below the map. */
    static LegendPainter below(MapScene scene, Surface out) {
        return new LegendPainter(scene, out, 1);
    }

    /** Paints a sample between two x, around a y. */
    private interface Sample {
        void paint(double left, double right, double y);
    }

    private record Row(String meaning, Sample sample) {}

    void paint() {
        if (!scene.shows(MapLayer.LEGEND)) {
            return;
        }
        List<Row> rows = rows();
        Place place = place(rows);
        if (place.height() + 2 * GAP > scene.view().height()) {
            paintNoRoom();
            return;
        }
        ground(place);
        double left = place.left() + PADDING * size;
        double y = place.top() + (PADDING + ROW / 2) * size;
        for (Row row : rows) {
            paintRow(row, left, y);
            y += ROW * size;
        }
    }

    /**
     * Where the legend is on the map.
     *
     * @param left pixels from the left edge
     * @param top pixels from the upper edge
     * @param width pixels
     * @param height pixels
     */
    record Place(double left, double top, double width, double height) {}

    /** Where the legend is, or the note that it has no room; empty when the map shows none. */
    Optional<Place> findPlace() {
        return Optional.of(scene)
                .filter(s -> s.shows(MapLayer.LEGEND))
                .map(s -> place(rows()))
                .map(p -> p.height() + 2 * GAP > scene.view().height() ? placeOfNote() : p);
    }

    /** All that legends cover of the map, which no name should be under. */
    static List<Rectangle2D> covered(MapScene scene, Surface out) {
        List<Rectangle2D> result = new ArrayList<>(new DelayPainter(scene).legendPlaces());
        new LegendPainter(scene, out)
                .findPlace()
                .map(at -> new Rectangle2D(at.left(), at.top(), at.width(), at.height()))
                .ifPresent(result::add);
        return result;
    }

    private Place place(List<Row> rows) {
        double w = columnWidth(rows);
        double h = (rows.size() * ROW + 2 * PADDING) * size;
        boolean right = onRight(w);
        double start = right ? scene.view().width() - ruler() - GAP - w : GAP;
        double bottom = scene.view().height() - GAP - (right ? delayLegend() : 0);
        return new Place(start, bottom - h, w, h);
    }

    private void ground(Place at) {
        out.fillRect(at.left(), at.top(), at.width(), at.height(), size, colors.paper());
        out.outlineRect(
                at.left(),
                at.top(),
                at.width(),
                at.height(),
                size,
                new Surface.Line(colors.box(), 1));
    }

    /** On a map that is lower than its legend. */
    private void paintNoRoom() {
        Place place = placeOfNote();
        ground(place);
        out.text(
                NO_ROOM,
                place.left() + PADDING * size,
                place.top() + place.height() / 2,
                new Surface.Lettering(size * noteFit(), Surface.Align.LEFT, colors.ink()));
    }

    /** By how much the note is smaller, where the map is narrow. */
    private double noteFit() {
        double room = scene.view().width() - 2 * GAP - 2 * PADDING * size;
        return Math.min(1, room / Surface.Lettering.width(NO_ROOM, size));
    }

    private Place placeOfNote() {
        double high = (ROW + 2 * PADDING) * size;
        double wide = Surface.Lettering.width(NO_ROOM, size * noteFit()) + 2 * PADDING * size;
        return new Place(GAP, scene.view().height() - GAP - high, wide, high);
    }

    /** Height of the legend below the map, in as many columns as fit. */
    static double heightBelow(MapScene scene) {
        // Only counted and measured: nothing is painted there.
        LegendPainter painter = below(scene, new SvgSurface(1, 1, ""));
        List<Row> rows = painter.rows();
        int columns = painter.columns(rows);
        int high = (rows.size() + columns - 1) / columns;
        return high * ROW * painter.size;
    }

    private int columns(List<Row> rows) {
        return (int) Math.max(1, Math.floor((scene.view().width() - GAP) / columnWidth(rows)));
    }

    private double columnWidth(List<Row> rows) {
        double wide =
                rows.stream()
                        .mapToDouble(r -> Surface.Lettering.width(r.meaning(), size))
                        .max()
                        .orElse(0);
        return wide + (SAMPLE + 3 * PADDING) * size;
    }

    /** Paints it below the map, with its upper edge at a height. */
    void paintBelow(double top) {
        List<Row> rows = rows();
        int columns = columns(rows);
        double wide = columnWidth(rows);
        for (int i = 0; i < rows.size(); i++) {
            double left = GAP + i % columns * wide;
            paintRow(rows.get(i), left, top + (i / columns + 0.5) * ROW * size);
        }
    }

    private void paintRow(Row row, double left, double y) {
        row.sample().paint(left, left + SAMPLE * size, y);
        out.text(
                row.meaning(),
                left + (SAMPLE + PADDING) * size,
                y,
                new Surface.Lettering(size, Surface.Align.LEFT, colors.ink()));
    }

    /** Whether a legend of that width covers less on the right than on the left. */
    private boolean onRight(double wide) {
        Viewport view = scene.view();
        double free = Math.max(0, view.screenX(0)) - GAP;
        double freeRight =
                Math.max(0, view.width() - view.screenX(scene.opened().design().fabric().columns()))
                        - ruler()
                        - GAP;
        return free < wide && freeRight > free;
    }

    /** Height of what delay bands and dots mean, in the lower right corner. */
    private double delayLegend() {
        int lines =
                scene.reach().isEmpty()
                        ? 0
                        : (scene.shows(MapLayer.DELAY) ? 1 : 0)
                                + (scene.shows(MapLayer.FRONTIER) ? 1 : 0);
        return lines * 2.2 * scene.letters(LETTERS);
    }

    /** Width of the ruler along the right edge. */
    private double ruler() {
        return scene.shows(MapLayer.RULERS) ? RulerPainter.breadth(scene) * RulerPainter.WIDER : 0;
    }

    private List<Row> rows() {
        List<Row> rows = new ArrayList<>();
        boolean parts = scene.scale() >= ZoomScales.PARTS;
        boolean used = scene.shows(MapLayer.OCCUPANCY);
        Fabric fabric = scene.opened().design().fabric();
        if (parts) {
            rows.add(new Row("switch box", (l, r, y) -> disc((l + r) / 2, y)));
            rows.add(new Row("free wires", line(scene.freeWires(), 1.5)));
            if (used) {
                rows.add(new Row("wires in use", line(scene.usedWires(), 3)));
            }
            rows.add(new Row("free site, or IO register site", box(colors.site(), 3)));
            if (used) {
                rows.add(new Row("the same, used by a cell", box(colors.used(), 3)));
            }
            if (!scene.opened().design().fabric().unusable().isEmpty()) {
                rows.add(new Row("crossed out: unusable wire or site", this::cross));
            }
        } else {
            rows.add(new Row(shadeText(), this::shades));
        }
        if (parts && used && !scene.opened().design().locks().isEmpty()) {
            rows.add(new Row("locked: a second rim, darker wires", this::locked));
        }
        if (parts && fabric.pads().stream().anyMatch(p -> !p.use().isOffered())) {
            rows.add(new Row("pad not offered: no pin, or not for signals", this::struck));
        }
        if (parts && hasPairs()) {
            rows.add(new Row("differential pair", this::pair));
        }
        if (scene.scale() >= ZoomScales.PADS) {
            rows.add(new Row("free pad", box(colors.site(), 14)));
            if (used) {
                rows.add(new Row("pad in use", box(colors.used(), 14)));
            }
        }
        addQuestion(rows);
        scene.overlay().map(o -> o.legend(colors)).orElse(List.of()).stream()
                .map(e -> new Row(e.meaning(), (l, r, y) -> e.sample().paint(out, l, r, y)))
                .forEach(rows::add);
        return rows;
    }

    /** In the dark theme, tiles become lighter. */
    private String shadeText() {
        boolean darker = colors.usedStrong().getBrightness() < colors.tile().getBrightness();
        return "tile: the " + (darker ? "darker" : "lighter") + ", the more is in use";
    }

    private void addQuestion(List<Row> rows) {
        if (scene.net().isPresent() && scene.shows(MapLayer.TREE)) {
            rows.add(new Row("the net's own wires", line(colors.net(), 2)));
        }
        if (scene.route().isPresent() && scene.shows(MapLayer.ROUTE)) {
            boolean dots = scene.scale() >= ZoomScales.PARTS && scene.scale() < ZoomScales.BOX;
            rows.add(
                    new Row(
                            "the route, from the disc to the pad"
                                    + (dots ? "; dots are switches" : ""),
                            line(colors.route(), 4)));
        }
        if (scene.before().isPresent() && scene.shows(MapLayer.ROUTE)) {
            rows.add(new Row("the route without the change", line(colors.obstacle(), 2.5, 2, 6)));
        }
        if (!scene.alternatives().isEmpty() && scene.shows(MapLayer.ALTERNATIVES)) {
            rows.add(
                    new Row(
                            "routes of other options to unblock",
                            line(colors.alternative(), 2.5, 9, 6)));
        }
        if (!scene.obstacles().isEmpty() && scene.shows(MapLayer.OBSTACLES)) {
            rows.add(
                    new Row(
                            scene.before().isEmpty() ? "what blocks the route" : "what is removed",
                            (l, r, y) -> {
                                out.fillDisc((l + r) / 2, y, 6, colors.obstacle());
                                out.line(
                                        (l + r) / 2 - 3,
                                        y,
                                        (l + r) / 2 + 3,
                                        y,
                                        new Surface.Line(colors.paper(), 2));
                            }));
        }
        if (!scene.marked().isEmpty() || scene.chosenObstacle().isPresent()) {
            rows.add(
                    new Row(
                            "selected, found or pinned",
                            (l, r, y) ->
                                    out.outlineDisc(
                                            (l + r) / 2,
                                            y,
                                            7,
                                            new Surface.Line(colors.selection(), 2.5))));
        }
    }

    private boolean hasPairs() {
        return scene.opened().design().fabric().pads().stream()
                .anyMatch(p -> !p.use().driving().partner().isEmpty());
    }

    private void locked(double left, double right, double y) {
        box(colors.used(), 3).paint(left, right, y);
        out.outlineRect((left + right) / 2 - 3, y - 4, 6, 8, 2, new Surface.Line(colors.ink(), 1));
    }

    private void struck(double left, double right, double y) {
        box(colors.site(), 14).paint(left, right, y);
        double middle = (left + right) / 2;
        out.line(middle - 6, y + 3, middle + 6, y - 3, new Surface.Line(colors.ink(), 1));
    }

    private void pair(double left, double right, double y) {
        double middle = (left + right) / 2;
        for (double x : new double[] {middle - 9, middle + 9}) {
            out.fillDisc(x, y, 4, colors.site());
            out.outlineDisc(x, y, 4, new Surface.Line(colors.ink(), 1));
        }
        out.line(middle - 5, y, middle + 5, y, new Surface.Line(colors.ink(), 3));
    }

    private void cross(double left, double right, double y) {
        double middle = (left + right) / 2;
        Surface.Line line = new Surface.Line(colors.ink(), 1.5);
        out.line(middle - 5, y - 5, middle + 5, y + 5, line);
        out.line(middle - 5, y + 5, middle + 5, y - 5, line);
    }

    private Sample line(Color color, double width, double... dashes) {
        return (l, r, y) -> out.line(l, y, r, y, new Surface.Line(color, width, dashes));
    }

    private Sample box(Color fill, double round) {
        return (l, r, y) -> {
            double w = round > 6 ? 16 : 10;
            double h = round > 6 ? 10 : 12;
            out.fillRect((l + r - w) / 2, y - h / 2, w, h, round, fill);
            out.outlineRect(
                    (l + r - w) / 2, y - h / 2, w, h, round, new Surface.Line(colors.box(), 1));
        };
    }

    private void disc(double x, double y) {
        out.fillDisc(x, y, 6, colors.tile());
        out.outlineDisc(x, y, 6, new Surface.Line(colors.box(), 1));
    }

    private void shades(double left, double right, double y) {
        int steps = 4;
        double w = (right - left) / steps;
        for (int i = 0; i < steps; i++) {
            Color shade = colors.tile().interpolate(colors.usedStrong(), i / (steps - 1.0));
            out.fillRect(left + i * w, y - 5, w, 10, 0, shade);
        }
        out.outlineRect(left, y - 5, right - left, 10, 0, new Surface.Line(colors.box(), 1));
    }
}
