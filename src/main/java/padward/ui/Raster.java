package padward.ui;

import java.nio.IntBuffer;
import java.util.Arrays;
import javafx.scene.image.Image;
import javafx.scene.image.PixelBuffer;
import javafx.scene.image.PixelFormat;
import javafx.scene.image.WritableImage;
import javafx.scene.paint.Color;

/**
 * A picture whose pixels are written one by one. A canvas that strokes thousands of lines takes
 * many times as long as filling their pixels here and drawing the picture once. Lines are one or
 * two pixels wide and not smoothed; most wires run along the axes, where that makes no difference.
 */
final class Raster {
    private final int width;
    private final int height;
    private final int[] pixels;
    private final PixelBuffer<IntBuffer> buffer;
    private final WritableImage image;

    Raster(int width, int height) {
        this.width = width;
        this.height = height;
        this.pixels = new int[width * height];
        this.buffer =
                new PixelBuffer<>(
                        width, height, IntBuffer.wrap(pixels), PixelFormat.getIntArgbPreInstance());
        this.image = new WritableImage(buffer);
    }

    boolean hasSize(int wide, int high) {
        return width == wide && height == high;
    }

    /** Makes everything transparent. */
    void clear() {
        Arrays.fill(pixels, 0);
    }

    /** The picture with all that has been written. */
    Image image() {
        buffer.updateBuffer(b -> null);
        return image;
    }

    /** An opaque colour as a pixel. */
    static int pixel(Color color) {
        return 0xff000000
                | (int) Math.round(color.getRed() * 255) << 16
                | (int) Math.round(color.getGreen() * 255) << 8
                | (int) Math.round(color.getBlue() * 255);
    }

    /** A line of a width in whole pixels; what lies outside is left out. */
    void line(double x0, double y0, double x1, double y1, int wide, int pixel) {
        int ax = (int) Math.round(x0);
        int ay = (int) Math.round(y0);
        int bx = (int) Math.round(x1);
        int by = (int) Math.round(y1);
        if (ay == by) {
            fill(Math.min(ax, bx), ay, Math.max(ax, bx), ay + wide - 1, pixel);
        } else if (ax == bx) {
            fill(ax, Math.min(ay, by), ax + wide - 1, Math.max(ay, by), pixel);
        } else {
            slanted(x0, y0, x1, y1, wide, pixel);
        }
    }

    private void slanted(double x0, double y0, double x1, double y1, int wide, int pixel) {
        double steps = Math.max(Math.abs(x1 - x0), Math.abs(y1 - y0));
        boolean outside =
                Math.max(x0, x1) < 0
                        || Math.max(y0, y1) < 0
                        || Math.min(x0, x1) >= width
                        || Math.min(y0, y1) >= height;
        if (outside) {
            return;
        }
        for (int i = 0; i <= steps; i++) {
            int x = (int) Math.round(x0 + (x1 - x0) * i / steps);
            int y = (int) Math.round(y0 + (y1 - y0) * i / steps);
            fill(x, y, x + wide - 1, y + wide - 1, pixel);
        }
    }

    private void fill(int x0, int y0, int x1, int y1, int pixel) {
        int left = Math.max(0, x0);
        int right = Math.min(width - 1, x1);
        if (left > right) {
            return;
        }
        int last = Math.min(height - 1, y1);
        for (int y = Math.max(0, y0); y <= last; y++) {
            Arrays.fill(pixels, y * width + left, y * width + right + 1, pixel);
        }
    }

    /** A filled rectangle with a rim one pixel wide. */
    void box(double x, double y, double w, double h, int inside, int rim) {
        int left = (int) Math.round(x);
        int top = (int) Math.round(y);
        int right = (int) Math.round(x + w) - 1;
        int bottom = (int) Math.round(y + h) - 1;
        fill(left, top, right, bottom, rim);
        fill(left + 1, top + 1, right - 1, bottom - 1, inside);
    }

    /** A filled disc with a rim one pixel wide. */
    void disc(double x, double y, double r, int inside, int rim) {
        rows(x, y, r, rim);
        rows(x, y, r - 1, inside);
    }

    private void rows(double x, double y, double r, int pixel) {
        // Pixels whose middles lie inside.
        for (int at = (int) Math.ceil(y - r - 0.5); at + 0.5 <= y + r; at++) {
            double across = r * r - (at + 0.5 - y) * (at + 0.5 - y);
            if (across > 0) {
                double half = Math.sqrt(across);
                int from = (int) Math.ceil(x - half - 0.5);
                int to = (int) Math.floor(x + half - 0.5);
                fill(from, at, to, at, pixel);
            }
        }
    }

    /** The pixel at a place. */
    int at(int x, int y) {
        return pixels[y * width + x];
    }
}
