package padward.ui.paint;

import java.util.Optional;
import java.util.stream.Stream;
import padward.fabric.Fabric;
import padward.ui.design.OpenDesign;
import padward.ui.design.TileLayout;
import padward.ui.draw.Palette;
import padward.ui.draw.Surface;
import padward.ui.draw.Viewport;
import padward.ui.scene.MapScene;

/**
 * The whole fabric, small, in a corner of the map where no pad is, with the part that the map
 * shows; painted only when that is not all of it. A click on it moves the map there.
 */
public final class OverviewPainter {
    private static final double SIZE = 84;
    private static final double SHARE = 0.28;
    private static final double MARGIN = 8;

    /** Largest width and height that it takes from the map, with its margins, pixels. */
    public static final double WIDTH = SIZE + 2 * MARGIN;

    private static final double LEAST_MARK = 5;

    private final MapScene scene;
    private final Viewport view;
    private final Palette palette;
    private final Surface out;
    private final Optional<Frame> place;
    private final Fabric fabric;

    /** Pads and what leads to them lie this far outside and inside of the rim, tiles. */
    private static final double RIM_OUTSIDE = 1.3;

    private static final double RIM_INSIDE = 0.35;

    /** Where the overview is on the screen, and its pixels per tile. */
    private record Frame(double x, double y, double width, double height, double scale) {
        /** In the first corner in which it lies on no pad; empty when there is none. */
        static Optional<Frame> of(Fabric fabric, Viewport view) {
            // Smaller on a small map, to cover less of it.
            double size = Math.min(SIZE, Math.min(view.width(), view.height()) * SHARE);
            double scale = size / Math.max(fabric.columns(), fabric.rows());
            double width = fabric.columns() * scale;
            double height = fabric.rows() * scale;
            double right = view.width() - width - MARGIN;
            double bottom = view.height() - height - MARGIN;
            return Stream.of(
                            new Frame(right, MARGIN, width, height, scale),
                            new Frame(right, bottom, width, height, scale),
                            new Frame(MARGIN, MARGIN, width, height, scale),
                            new Frame(MARGIN, bottom, width, height, scale))
                    .filter(f -> !f.liesOnPads(fabric, view))
                    .findFirst();
        }

        private boolean liesOnPads(Fabric fabric, Viewport view) {
            double x0 = view.worldX(x);
            double x1 = view.worldX(x + width);
            double y0 = view.worldY(y + height);
            double y1 = view.worldY(y);
            boolean inside =
                    x0 > RIM_INSIDE
                            && x1 < fabric.columns() - RIM_INSIDE
                            && y0 > RIM_INSIDE
                            && y1 < fabric.rows() - RIM_INSIDE;
            boolean outside =
                    x1 < -RIM_OUTSIDE
                            || x0 > fabric.columns() + RIM_OUTSIDE
                            || y1 < -RIM_OUTSIDE
                            || y0 > fabric.rows() + RIM_OUTSIDE;
            return !inside && !outside;
        }
    }

    OverviewPainter(MapScene scene, Surface out) {
        this.scene = scene;
        this.fabric = scene.opened().design().fabric();
        this.view = scene.view();
        this.palette = scene.palette();
        this.out = out;
        this.place = Frame.of(fabric, view);
    }

    private static boolean isNeeded(Fabric fabric, Viewport view) {
        boolean all =
                view.worldX(0) <= 0
                        && view.worldY(view.height()) <= 0
                        && view.worldX(view.width()) >= fabric.columns()
                        && view.worldY(0) >= fabric.rows();
        return !all && view.width() > 3 * SIZE && view.height() > 2 * SIZE;
    }

    void paint() {
        if (isNeeded(fabric, view)) {
            place.ifPresent(this::paint);
        }
    }

    private void paint(Frame frame) {
        out.cells(scene.cells(), frame.x(), frame.y(), frame.width(), frame.height());
        out.outlineRect(
                frame.x(),
                frame.y(),
                frame.width(),
                frame.height(),
                0,
                new Surface.Line(palette.box(), 1));
        double x0 = clamp(view.worldX(0), fabric.columns());
        double x1 = clamp(view.worldX(view.width()), fabric.columns());
        double y0 = clamp(view.worldY(view.height()), fabric.rows());
        double y1 = clamp(view.worldY(0), fabric.rows());
        double w = Math.max(LEAST_MARK, (x1 - x0) * frame.scale());
        double h = Math.max(LEAST_MARK, (y1 - y0) * frame.scale());
        out.outlineRect(
                frame.x() + x0 * frame.scale(),
                frame.y() + frame.height() - y0 * frame.scale() - h,
                w,
                h,
                0,
                new Surface.Line(palette.selection(), 2));
    }

    private static double clamp(double value, double most) {
        return Math.max(0, Math.min(most, value));
    }

    /** The place on the map for a point of the screen; empty when that is not on the overview. */
    public static Optional<TileLayout.Point> placeAt(
            OpenDesign opened, Viewport view, double x, double y) {
        Fabric fabric = opened.design().fabric();
        Optional<Frame> place = Frame.of(fabric, view);
        if (place.isEmpty()) {
            return Optional.empty();
        }
        Frame frame = place.get();
        boolean inside =
                isNeeded(fabric, view)
                        && x >= frame.x()
                        && x <= frame.x() + frame.width()
                        && y >= frame.y()
                        && y <= frame.y() + frame.height();
        return inside
                ? Optional.of(
                        new TileLayout.Point(
                                (x - frame.x()) / frame.scale(),
                                (frame.y() + frame.height() - y) / frame.scale()))
                : Optional.empty();
    }
}
