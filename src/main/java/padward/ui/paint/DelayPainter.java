package padward.ui.paint;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.IntUnaryOperator;
import javafx.geometry.Rectangle2D;
import javafx.scene.paint.Color;
import padward.fabric.Fabric;
import padward.ui.design.TileIndex;
import padward.ui.design.TileRange;
import padward.ui.draw.Marks;
import padward.ui.draw.Raster;
import padward.ui.draw.Surface;
import padward.ui.draw.Tag;
import padward.ui.draw.Viewport;
import padward.ui.scene.MapLayer;
import padward.ui.scene.MapScene;
import padward.ui.scene.NetReach;
import padward.ui.scene.ZoomScales;

/**
 * Paints how far a net gets: lines between tiles of different delay bands, labelled with the delay,
 * and dots along the search frontier.
 */
final class DelayPainter {
    private static final double LETTERS = 11;
    private static final double LABEL_APART = 150;
    private static final double LEGEND_GAP = 4;
    private static final int NAME_ROOM = 34;
    private static final int DOT = 2;
    private static final double DOT_STEP = 6;

    private final MapScene scene;
    private final Viewport view;
    private final Fabric fabric;

    DelayPainter(MapScene scene) {
        this.scene = scene;
        this.view = scene.view();
        this.fabric = scene.opened().design().fabric();
    }

    /** Paints the lines, below boxes and sites. */
    void paintLines(Marks marks, TileRange seen) {
        scene.bands()
                .ifPresent(
                        r -> {
                            int pixel = Raster.pixel(scene.palette().delayLine());
                            borders(
                                    seen,
                                    r::band,
                                    (x0, y0, x1, y1) -> marks.line(x0, y0, x1, y1, 2, pixel));
                        });
        if (scene.shows(MapLayer.FRONTIER)) {
            scene.reach().ifPresent(r -> paintFrontier(marks, seen, r));
        }
    }

    private interface Border {
        void draw(double x0, double y0, double x1, double y1);
    }

    /** All borders between tiles in view whose values differ. */
    private void borders(TileRange seen, IntUnaryOperator value, Border border) {
        seen.forEach(
                tile -> {
                    int here = value.applyAsInt(tile);
                    double right = view.screenX(fabric.column(tile) + 1.0);
                    double top = view.screenY(fabric.row(tile) + 1.0);
                    boolean last = fabric.column(tile) == fabric.columns() - 1;
                    if (!last && value.applyAsInt(tile + 1) != here) {
                        border.draw(right, top, right, top + scene.scale());
                    }
                    int above = tile + fabric.columns();
                    if (above < fabric.tileCount() && value.applyAsInt(above) != here) {
                        border.draw(right - scene.scale(), top, right, top);
                    }
                });
    }

    /** Paints dots around all tiles that the search has visited; zoomed in, also its last wires. */
    private void paintFrontier(Marks marks, TileRange seen, NetReach reach) {
        int pixel = Raster.pixel(scene.palette().frontier());
        borders(
                seen,
                tile -> reach.isSearched(tile) ? 1 : 0,
                (x0, y0, x1, y1) -> {
                    double length = Math.max(Math.abs(x1 - x0), Math.abs(y1 - y0));
                    int dots = (int) Math.max(1, length / DOT_STEP);
                    for (int i = 0; i < dots; i++) {
                        double x = x0 + (x1 - x0) * i / dots;
                        double y = y0 + (y1 - y0) * i / dots;
                        marks.box(x - DOT, y - DOT, 2 * DOT, 2 * DOT, 0, pixel, pixel);
                    }
                });
        if (scene.scale() >= ZoomScales.WIRES && reach.reachesPadPs().isPresent()) {
            TileIndex index = scene.opened().index();
            seen.forEach(
                    tile -> {
                        for (int i = index.first(tile); i < index.first(tile + 1); i++) {
                            int wire = index.vertex(i);
                            if (reach.frontier().get(wire)) {
                                scene.opened()
                                        .layout()
                                        .forEachLeg(
                                                wire,
                                                (x0, y0, x1, y1) ->
                                                        scene.line(
                                                                marks, x0, y0, x1, y1, 1, pixel));
                            }
                        }
                    });
        }
    }

    private record Label(double x, double y, Tag tag) {

        boolean isNear(Label other) {
            double dx = Math.abs(x - other.x) - (tag.width() + other.tag.width()) / 2;
            double dy = Math.abs(y - other.y) - tag.height();
            boolean same = tag.equals(other.tag);
            return dx < 4 && dy < 3 || same && Math.hypot(x - other.x, y - other.y) < LABEL_APART;
        }
    }

    /** Paints the delays on the lines. */
    void paintLabels(Surface out, TileRange seen) {
        scene.bands().ifPresent(r -> labels(seen, r).forEach(l -> paint(out, l)));
    }

    /** Paints what bands and dots mean, on top of everything else. */
    void paintLegend(Surface out) {
        for (Line line : legend()) {
            line.tag().paint(out, scene.palette(), line.place().getMinX(), line.place().getMinY());
        }
    }

    /** Where that is on the map. */
    List<Rectangle2D> legendPlaces() {
        return legend().stream().map(Line::place).toList();
    }

    private record Line(Tag tag, Rectangle2D place) {}

    private List<Line> legend() {
        List<Line> result = new ArrayList<>();
        if (scene.reach().isPresent()) {
            NetReach reach = scene.reach().get();
            double bottom = view.height() - LEGEND_GAP;
            if (scene.shows(MapLayer.FRONTIER)) {
                Line dots = line(frontierMeaning(reach), bottom, scene.palette().frontier());
                result.add(dots);
                bottom = dots.place().getMinY() - LEGEND_GAP;
            }
            if (scene.shows(MapLayer.DELAY)) {
                result.add(line(bandMeaning(reach), bottom, scene.palette().delayLine()));
            }
        }
        return result;
    }

    /** A line of the legend in the lower right corner. */
    private Line line(String text, double bottom, Color color) {
        Tag tag = new Tag(text, scene.letters(LETTERS), color);
        double left = Math.max(0, view.width() - tag.width() - 8);
        return new Line(
                tag, new Rectangle2D(left, bottom - tag.height(), tag.width(), tag.height()));
    }

    private static String bandMeaning(NetReach reach) {
        return "Delay over free wires from "
                + SitePainter.shortened(reach.field().net().name(), NAME_ROOM)
                + ", "
                + reach.field().corner().label()
                + " corner, per tile";
    }

    private static String frontierMeaning(NetReach reach) {
        return reach.reachesPadPs().isPresent()
                ? String.format(
                        Locale.ROOT,
                        "Dots: area searched when the pad was reached, at %.3f ns",
                        reach.reachesPadPs().getAsInt() / 1000.0)
                : "Dots: all that free wires reach; the pad is not in it";
    }

    /** Labels where lines cross a few rows of the picture; no two overlap. */
    private List<Label> labels(TileRange seen, NetReach reach) {
        List<Label> result = new ArrayList<>();
        for (int part = 1; part <= 7; part++) {
            int row = (int) Math.floor(view.worldY(view.height() * part / 8));
            if (row < seen.bottom() || row > seen.top()) {
                continue;
            }
            for (int column = seen.left(); column < seen.right(); column++) {
                int tile = row * fabric.columns() + column;
                int one = Math.min(reach.band(tile), reach.band(tile + 1));
                if (reach.band(tile) != reach.band(tile + 1)) {
                    Label label =
                            new Label(
                                    view.screenX(column + 1.0),
                                    view.screenY(row + 0.5),
                                    new Tag(
                                            reach.limit(one),
                                            scene.letters(LETTERS),
                                            scene.palette().delayLine()));
                    double half = label.tag().width() / 2;
                    boolean fits =
                            label.x() > half
                                    && label.x() < view.width() - half
                                    && result.stream().noneMatch(label::isNear);
                    if (fits) {
                        result.add(label);
                    }
                }
            }
        }
        return result;
    }

    private void paint(Surface out, Label label) {
        Tag tag = label.tag();
        tag.paint(out, scene.palette(), label.x() - tag.width() / 2, label.y() - tag.height() / 2);
    }
}
