package padward.ui.paint;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import javafx.geometry.Insets;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.ui.design.TileLayout;
import padward.ui.draw.Surface;
import padward.ui.draw.Viewport;
import padward.ui.scene.MapScene;
import padward.ui.scene.ZoomScales;

/**
 * Gives a large fabric seen from far away its structure: a grid of regions, the columns of another
 * kind of tile, the banks along the rim, and a scale. Small fabrics and near views need none.
 */
final class StructurePainter {
    /** Fewer columns than this are seen at a glance. */
    private static final int LARGE = 24;

    private static final double LETTERS = 11;
    private static final double LEAST_REGION = 44;
    private static final double MOST_SCALE = 140;
    private static final double AWAY = 7;
    private static final double END = 4;

    /** How far pads reach out of the fabric, tiles. */
    private static final double RIM = 0.5;

    private static final double FAINT = 0.45;
    private static final int[] STEPS = {10, 20, 50, 100, 200, 500, 1000};

    private final MapScene scene;
    private final Surface out;
    private final Viewport view;
    private final Fabric fabric;
    private final double size;
    private final List<LegendPainter.Place> names = new ArrayList<>();

    StructurePainter(MapScene scene, Surface out) {
        this.scene = scene;
        this.out = out;
        this.view = scene.view();
        this.fabric = scene.opened().design().fabric();
        this.size = scene.letters(LETTERS);
    }

    /** Whether there is something to be told. */
    boolean isWanted() {
        return Math.max(fabric.columns(), fabric.rows()) >= LARGE
                && scene.scale() < ZoomScales.PARTS;
    }

    /** The room that the names of banks need outside the pads, pixels. */
    Insets roomForNames() {
        double high = AWAY + 1.5 * size;
        double wide =
                fabric.pads().stream()
                        .map(p -> Surface.Lettering.width(nameOf(p), size))
                        .max(Double::compare)
                        .map(w -> w + 2 * AWAY)
                        .orElse(0.0);
        return new Insets(high, wide, high, wide);
    }

    private static String nameOf(Pad padOfBank) {
        return "bank " + padOfBank.bank();
    }

    /** Paints it. */
    void paint() {
        paintRegions();
        paintColumns();
        paintBanks();
        paintScale();
    }

    private void paintRegions() {
        int step = 0;
        for (int next : STEPS) {
            if (step == 0 && next * scene.scale() >= LEAST_REGION) {
                step = next;
            }
        }
        if (step == 0) {
            return;
        }
        Surface.Line faint =
                new Surface.Line(
                        scene.palette().tile().interpolate(scene.palette().box(), FAINT), 1);
        double left = view.screenX(0);
        double right = view.screenX(fabric.columns());
        double top = view.screenY(fabric.rows());
        double bottom = view.screenY(0);
        for (int column = step; column < fabric.columns(); column += step) {
            double x = view.screenX(column);
            out.line(x, top, x, bottom, faint);
        }
        for (int row = step; row < fabric.rows(); row += step) {
            double y = view.screenY(row);
            out.line(left, y, right, y, faint);
        }
    }

    /** Outlines of columns whose tiles are of another kind than most. */
    private void paintColumns() {
        Surface.Line line = new Surface.Line(scene.palette().kind(), 1.5);
        double top = view.screenY(fabric.rows() - 1.0);
        double high = view.screenY(1) - top;
        for (int column = 1; column < fabric.columns() - 1; column++) {
            int first = column;
            int kind = kind(column);
            while (kind != 0 && column + 1 < fabric.columns() - 1 && kind(column + 1) == kind) {
                column++;
            }
            if (kind != 0) {
                double x = view.screenX(first);
                out.outlineRect(x, top, view.screenX(column + 1.0) - x, high, 0, line);
            }
        }
    }

    /** The kind of all of a column's tiles, as far as three of them say; 0 for the usual one. */
    private int kind(int column) {
        int kind = -1;
        for (int part = 1; part <= 3; part++) {
            int row = part * fabric.rows() / 4;
            int here = scene.opened().kinds().of(row * fabric.columns() + column);
            if (kind >= 0 && here != kind) {
                return 0;
            }
            kind = here;
        }
        return kind;
    }

    /** A line outside the pads of each bank, with its name. */
    private void paintBanks() {
        for (Side side : Side.values()) {
            List<Pad> pads = new ArrayList<>();
            for (Pad pad : fabric.pads()) {
                if (!pad.bank().isEmpty() && isOn(side, fabric.tile(pad.vertex()))) {
                    pads.add(pad);
                }
            }
            pads.sort(Comparator.comparingDouble(p -> along(p, side)));
            int first = 0;
            for (int i = 1; i <= pads.size(); i++) {
                boolean ends =
                        i == pads.size() || !pads.get(i).bank().equals(pads.get(first).bank());
                if (ends) {
                    paintBank(pads.subList(first, i), side);
                    first = i;
                }
            }
        }
    }

    private enum Side {
        LEFT,
        RIGHT,
        BOTTOM,
        TOP
    }

    /**
     * Whether a tile is on a side of the rim; corners are on the left or right, inner ones on none.
     */
    private boolean isOn(Side side, int tile) {
        int column = fabric.column(tile);
        boolean left = column == 0;
        boolean right = column == fabric.columns() - 1 && !left;
        return switch (side) {
            case LEFT -> left;
            case RIGHT -> right;
            case BOTTOM -> !left && !right && fabric.row(tile) == 0;
            case TOP ->
                    !left && !right && fabric.rows() > 1 && fabric.row(tile) == fabric.rows() - 1;
        };
    }

    private double along(Pad pad, Side side) {
        TileLayout.Box box = scene.opened().layout().pillAt(pad.vertex());
        return side == Side.LEFT || side == Side.RIGHT ? box.centreY() : box.centreX();
    }

    private void paintBank(List<Pad> pads, Side side) {
        double least = Double.MAX_VALUE;
        double most = -Double.MAX_VALUE;
        double outside = side == Side.RIGHT || side == Side.BOTTOM ? -1e9 : 1e9;
        for (Pad pad : pads) {
            TileLayout.Box box = scene.opened().layout().pillAt(pad.vertex());
            double x0 = view.screenX(box.x());
            double x1 = view.screenX(box.x() + box.width());
            double y0 = view.screenY(box.y() + box.height());
            double y1 = view.screenY(box.y());
            boolean upright = side == Side.LEFT || side == Side.RIGHT;
            least = Math.min(least, upright ? y0 : x0);
            most = Math.max(most, upright ? y1 : x1);
            outside =
                    switch (side) {
                        case LEFT -> Math.min(outside, x0);
                        case RIGHT -> Math.max(outside, x1);
                        case BOTTOM -> Math.max(outside, y1);
                        case TOP -> Math.min(outside, y0);
                    };
        }
        String text = nameOf(pads.get(0));
        Surface.Line line = new Surface.Line(scene.palette().box(), 2);
        double middle = (least + most) / 2;
        switch (side) {
            case LEFT -> {
                out.line(outside - AWAY, least, outside - AWAY, most, line);
                name(text, outside - 2 * AWAY, middle, Surface.Align.RIGHT);
            }
            case RIGHT -> {
                out.line(outside + AWAY, least, outside + AWAY, most, line);
                name(text, outside + 2 * AWAY, middle, Surface.Align.LEFT);
            }
            case BOTTOM -> {
                out.line(least, outside + AWAY, most, outside + AWAY, line);
                name(text, middle, outside + AWAY + size, Surface.Align.CENTER);
            }
            case TOP -> {
                out.line(least, outside - AWAY, most, outside - AWAY, line);
                name(text, middle, outside - AWAY - size, Surface.Align.CENTER);
            }
        }
    }

    private void paintScale() {
        int tiles = STEPS[0];
        for (int next : STEPS) {
            if (next * scene.scale() <= MOST_SCALE) {
                tiles = next;
            }
        }
        double length = tiles * scene.scale();
        String text = tiles + " tiles";
        double wide = length + Surface.Lettering.width(text, size) + 3 * AWAY;
        ScalePlace place = besideLegend((view.width() - length) / 2 - AWAY, wide);
        double left = place.left() + AWAY;
        double y = place.y();
        Surface.Line ink = new Surface.Line(scene.palette().ink(), 1.5);
        out.fillRect(left - AWAY, y - size, wide, 2 * size, size, scene.palette().paper());
        out.line(left, y, left + length, y, ink);
        out.line(left, y - END, left, y + END, ink);
        out.line(left + length, y - END, left + length, y + END, ink);
        text(text, left + length + AWAY, y, Surface.Align.LEFT);
    }

    private record ScalePlace(double left, double y) {}

    /**
     * In the middle below, or where it covers neither fabric nor the legend nor the name of a bank;
     * where the legend leaves no room at all, above it.
     */
    private ScalePlace besideLegend(double middle, double wide) {
        double y = view.height() - 2 * size;
        Optional<LegendPainter.Place> legend = new LegendPainter(scene, out).findPlace();
        List<LegendPainter.Place> legends = legend.stream().toList();
        List<LegendPainter.Place> texts = new ArrayList<>(legends);
        texts.addAll(names);
        List<LegendPainter.Place> all = new ArrayList<>(texts);
        all.add(fabricAndPads());
        List<Double> lefts = new ArrayList<>(List.of(middle));
        legend.ifPresent(at -> lefts.add(at.left() + at.width() + AWAY));
        legend.ifPresent(at -> lefts.add(at.left() - wide - AWAY));
        lefts.add(AWAY);
        lefts.add(view.width() - wide - AWAY);
        double above = legend.map(at -> at.top() - 2 * size).orElse(y);
        for (List<LegendPainter.Place> taken : List.of(all, texts, legends)) {
            for (double at : List.of(y, above)) {
                for (double left : lefts) {
                    boolean inside = left >= 0 && left + wide <= view.width() && at >= size;
                    if (inside && isFree(taken, left, at, wide)) {
                        return new ScalePlace(left, at);
                    }
                }
            }
        }
        return new ScalePlace(Math.max(AWAY, middle), Math.max(size, above));
    }

    private LegendPainter.Place fabricAndPads() {
        double left = view.screenX(-RIM);
        double top = view.screenY(fabric.rows() + RIM);
        return new LegendPainter.Place(
                left, top, view.screenX(fabric.columns() + RIM) - left, view.screenY(-RIM) - top);
    }

    private boolean isFree(List<LegendPainter.Place> taken, double left, double y, double wide) {
        return taken.stream()
                .noneMatch(
                        at ->
                                left < at.left() + at.width() + AWAY
                                        && left + wide + AWAY > at.left()
                                        && y - size < at.top() + at.height()
                                        && y + size > at.top());
    }

    /** The name of a bank, which the scale must not cover. */
    private void name(String text, double x, double y, Surface.Align align) {
        double wide = Surface.Lettering.width(text, size);
        double left =
                switch (align) {
                    case LEFT -> x;
                    case CENTER -> x - wide / 2;
                    case RIGHT -> x - wide;
                };
        names.add(new LegendPainter.Place(left, y - size / 2, wide, size));
        text(text, x, y, align);
    }

    private void text(String text, double x, double y, Surface.Align align) {
        out.text(text, x, y, new Surface.Lettering(size, align, scene.palette().ink()));
    }
}
