package padward.ui.scene;

import java.util.function.IntConsumer;
import padward.fabric.Fabric;
import padward.ui.draw.Viewport;

/**
 * A rectangle of tiles, its limits included.
 *
 * @param left first column
 * @param right last column
 * @param bottom first row
 * @param top last row
 * @param columns how many columns the fabric has
 */
public record TileRange(int left, int right, int bottom, int top, int columns) {
    /** The tiles that a view shows, and one more at each side. */
    public static TileRange of(Fabric fabric, Viewport view) {
        return around(
                fabric,
                (int) Math.floor(view.worldX(0)) - 1,
                (int) Math.floor(view.worldX(view.width())) + 1,
                (int) Math.floor(view.worldY(view.height())) - 1,
                (int) Math.floor(view.worldY(0)) + 1);
    }

    private static TileRange around(Fabric fabric, int left, int right, int bottom, int top) {
        return new TileRange(
                clamp(left, fabric.columns()),
                clamp(right, fabric.columns()),
                clamp(bottom, fabric.rows()),
                clamp(top, fabric.rows()),
                fabric.columns());
    }

    /** Larger by so many tiles at each side, as far as the fabric goes. */
    public TileRange grown(Fabric fabric, int by) {
        return around(fabric, left - by, right + by, bottom - by, top + by);
    }

    private static int clamp(int value, int size) {
        return Math.max(0, Math.min(size - 1, value));
    }

    /** Goes over all its tiles, row by row. */
    public void forEach(IntConsumer tile) {
        for (int row = bottom; row <= top; row++) {
            for (int column = left; column <= right; column++) {
                tile.accept(row * columns + column);
            }
        }
    }

    /** How many tiles it holds. */
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
