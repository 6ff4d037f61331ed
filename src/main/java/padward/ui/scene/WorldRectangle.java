package padward.ui.scene;

import java.util.stream.IntStream;
import javafx.geometry.Insets;
import padward.ui.design.TileLayout;
import padward.ui.draw.Viewport;

/**
 * A rectangle on the map, world units.
 *
 * @param x0 left
 * @param y0 lower
 * @param x1 right
 * @param y1 upper
 */
public record WorldRectangle(double x0, double y0, double x1, double y1) {
    private static final double MARGIN = 0.6;

    /** Margin around a single site or pad. */
    private static final double AROUND = 0.3;

    /** Height kept free above it for what is told there, pixels. */
    private static final double ABOVE = 34;

    /** A view lower than this needs all of its height, pixels. */
    private static final double LOW = 250;

    /** The smallest rectangle around some vertices, at least one, with a margin. */
    public static WorldRectangle of(TileLayout layout, IntStream vertices) {
        double[] b = {Double.MAX_VALUE, Double.MAX_VALUE, -Double.MAX_VALUE, -Double.MAX_VALUE};
        vertices.forEach(
                v -> {
                    include(b, layout.start(v));
                    include(b, layout.end(v));
                    layout.forEachLeg(
                            v,
                            (x0, y0, x1, y1) -> {
                                include(b, new TileLayout.Point(x0, y0));
                                include(b, new TileLayout.Point(x1, y1));
                            });
                });
        return new WorldRectangle(b[0] - MARGIN, b[1] - MARGIN, b[2] + MARGIN, b[3] + MARGIN);
    }

    /** A rectangle around something in a tile, with a margin. */
    public static WorldRectangle around(TileLayout.Box box) {
        return new WorldRectangle(
                box.x() - AROUND,
                box.y() - AROUND,
                box.x() + box.width() + AROUND,
                box.y() + box.height() + AROUND);
    }

    /** The smallest rectangle around this and another one. */
    public WorldRectangle with(WorldRectangle other) {
        return new WorldRectangle(
                Math.min(x0, other.x0),
                Math.min(y0, other.y0),
                Math.max(x1, other.x1),
                Math.max(y1, other.y1));
    }

    private static void include(double[] bounds, TileLayout.Point point) {
        bounds[0] = Math.min(bounds[0], point.x());
        bounds[1] = Math.min(bounds[1], point.y());
        bounds[2] = Math.max(bounds[2], point.x());
        bounds[3] = Math.max(bounds[3], point.y());
    }

    /** A view that shows all of it, at a scale of at most {@code nearest} pixels per tile. */
    public Viewport in(Viewport view, double nearest) {
        return in(view, nearest, new Insets(roomAbove(view), 0, 0, 0));
    }

    /** Height that a view keeps free above what is fitted into it, pixels. */
    public static double roomAbove(Viewport view) {
        return view.height() < LOW ? 0 : ABOVE;
    }

    /**
     * The same with room for something else.
     *
     * @param around what is kept free, pixels
     */
    public Viewport in(Viewport view, double nearest, Insets around) {
        double wide = Math.max(1, view.width() - around.getLeft() - around.getRight());
        double high = Math.max(1, view.height() - around.getTop() - around.getBottom());
        return view.resized(wide, high)
                .fitted(x0, y0, x1, y1, nearest)
                .resized(view.width(), view.height())
                .panned(
                        (around.getLeft() - around.getRight()) / 2,
                        (around.getTop() - around.getBottom()) / 2);
    }
}
