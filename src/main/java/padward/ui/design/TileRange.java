package padward.ui.design;

import java.util.function.IntConsumer;
import padward.fabric.Fabric;

/**
 * A rectangle of tiles, including its limits.
 *
 * @param left first column
 * @param right last column
 * @param bottom first row
 * @param top last row
 * @param columns number of columns of the fabric
 */
public record TileRange(int left, int right, int bottom, int top, int columns) {
    /** The tiles within these limits, as far as the fabric goes. */
    public static TileRange of(Fabric fabric, int left, int right, int bottom, int top) {
        return new TileRange(
                clamp(left, fabric.columns()),
                clamp(right, fabric.columns()),
                clamp(bottom, fabric.rows()),
                clamp(top, fabric.rows()),
                fabric.columns());
    }

    /** Larger by a number of tiles on each side, within the fabric. */
    public TileRange grown(Fabric fabric, int by) {
        return of(fabric, left - by, right + by, bottom - by, top + by);
    }

    private static int clamp(int value, int size) {
        return Math.max(0, Math.min(size - 1, value));
    }

    /** Visits all its tiles, row by row. */
    public void forEach(IntConsumer tile) {
        for (int row = bottom; row <= top; row++) {
            for (int column = left; column <= right; column++) {
                tile.accept(row * columns + column);
            }
        }
    }

    /** Whether it has tiles in common with the smallest rectangle around two tiles. */
    boolean meets(Fabric fabric, int one, int other) {
        int x0 = fabric.column(one);
        int x1 = fabric.column(other);
        int y0 = fabric.row(one);
        int y1 = fabric.row(other);
        return Math.max(x0, x1) >= left
                && Math.min(x0, x1) <= right
                && Math.max(y0, y1) >= bottom
                && Math.min(y0, y1) <= top;
    }

    /** Number of tiles in it. */
    int size() {
        return (right - left + 1) * (top - bottom + 1);
    }

    /** Whether a tile is in it. */
    public boolean contains(int tile) {
        int column = tile % columns;
        int row = tile / columns;
        return column >= left && column <= right && row >= bottom && row <= top;
    }
}
