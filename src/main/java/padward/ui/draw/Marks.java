package padward.ui.draw;

/**
 * Draws numerous small shapes, such as wires. Pixels as on a {@link Surface}; colours as from
 * {@link Raster#pixel}.
 */
public interface Marks {
    /** A line of a width in whole pixels. */
    void line(double x0, double y0, double x1, double y1, int wide, int pixel);

    /**
     * A filled rectangle with a rim one pixel wide, which may have the same colour.
     *
     * @param round diameter of its corners
     */
    void box(double x, double y, double w, double h, double round, int inside, int rim);

    /** A filled disc around a point with a rim one pixel wide. */
    default void disc(double x, double y, double r, int inside, int rim) {
        box(x - r, y - r, 2 * r, 2 * r, 2 * r, inside, rim);
    }
}
