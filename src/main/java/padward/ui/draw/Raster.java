package padward.ui.draw;

import java.nio.IntBuffer;
import java.util.Arrays;
import javafx.application.Platform;
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
public final class Raster implements Marks {
    /** Bits of a coordinate's fraction, where lines are stepped along. */
    private static final int FRACTION = 16;

    private static final int ONE = 1 << FRACTION;

    /** Up to this width, such as a line's, a call for each row would cost more than its pixels. */
    private static final int NARROW = 8;

    private final double density;
    private final int rimWidth;
    private final int width;
    private final int height;
    private final int[] pixels;
    private final PixelBuffer<IntBuffer> buffer;
    private final WritableImage image;

    /** With as many pixels as the view. */
    public Raster(int width, int height) {
        this(width, height, 1);
    }

    /**
     * With more pixels than the view, for screens with high resolution.
     *
     * @param density pixels per pixel of the view, in both directions; at least 1
     */
    public Raster(double viewWidth, double viewHeight, double density) {
        this.density = density;
        this.rimWidth = Math.max(1, (int) Math.round(density));
        this.width = Math.max(1, (int) Math.ceil(viewWidth * density));
        this.height = Math.max(1, (int) Math.ceil(viewHeight * density));
        this.pixels = new int[width * height];
        this.buffer =
                new PixelBuffer<>(
                        width, height, IntBuffer.wrap(pixels), PixelFormat.getIntArgbPreInstance());
        this.image = new WritableImage(buffer);
    }

    /** Whether it fits a view of that size and density. */
    public boolean isFor(double viewWidth, double viewHeight, double wanted) {
        return density == wanted
                && width == Math.max(1, (int) Math.ceil(viewWidth * wanted))
                && height == Math.max(1, (int) Math.ceil(viewHeight * wanted));
    }

    /** Width of the picture in the view's pixels. */
    double viewWidth() {
        return width / density;
    }

    /** Height of the picture in the view's pixels. */
    double viewHeight() {
        return height / density;
    }

    /** Makes everything transparent. */
    void clear() {
        Arrays.fill(pixels, 0);
    }

    /** The picture with everything written so far. */
    public Image image() {
        // Notifies whatever shows the picture. Off the UI thread, nothing shows it yet.
        if (Platform.isFxApplicationThread()) {
            buffer.updateBuffer(b -> null);
        }
        return image;
    }

    /** An opaque colour as a pixel. */
    public static int pixel(Color color) {
        return 0xff000000
                | (int) Math.round(color.getRed() * 255) << 16
                | (int) Math.round(color.getGreen() * 255) << 8
                | (int) Math.round(color.getBlue() * 255);
    }

    /** A line of a width in whole pixels; what is outside is left out. */
    @Override
    public void line(double x0, double y0, double x1, double y1, int wide, int pixel) {
        drawLine(
                x0 * density,
                y0 * density,
                x1 * density,
                y1 * density,
                Math.max(1, (int) Math.round(wide * density)),
                pixel);
    }

    private void drawLine(double x0, double y0, double x1, double y1, int wide, int pixel) {
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

    /**
     * Steps along the longer side, a pixel at a time, in fractions of 2^-16; first and last step
     * are such that none between them lies outside, but for what rounding and width add. Hot: near
     * switches, thousands a frame.
     */
    private void slanted(double x0, double y0, double x1, double y1, int wide, int pixel) {
        double steps = Math.max(Math.abs(x1 - x0), Math.abs(y1 - y0));
        double dx = (x1 - x0) / steps;
        double dy = (y1 - y0) / steps;
        double low = 0.5 - wide;
        double first = Math.max(enters(x0, dx, low, width), enters(y0, dy, low, height));
        double last = Math.min(leaves(x0, dx, low, width), leaves(y0, dy, low, height));
        int i = (int) Math.ceil(Math.max(0, first));
        int end = (int) Math.floor(Math.min(steps, last));
        if (i > end) {
            return;
        }
        int x = fixed(x0 + i * dx);
        int y = fixed(y0 + i * dy);
        int stepX = (int) Math.round(dx * ONE);
        int stepY = (int) Math.round(dy * ONE);
        for (; i <= end; i++) {
            int column = x >> FRACTION;
            int row = y >> FRACTION;
            if (wide > 1) {
                fill(column, row, column + wide - 1, row + wide - 1, pixel);
            } else if (column >= 0 && column < width && row >= 0 && row < height) {
                pixels[row * width + column] = pixel;
            }
            x += stepX;
            y += stepY;
        }
    }

    /** The step from which on a coordinate lies between {@code low} and half before the end. */
    private static double enters(double from, double step, double low, int end) {
        double high = end - 0.5;
        if (step == 0) {
            return from >= low && from < high ? 0 : Double.POSITIVE_INFINITY;
        }
        return ((step > 0 ? low : high) - from) / step;
    }

    /** The last step at which it does. */
    private static double leaves(double from, double step, double low, int end) {
        return step == 0 ? Double.POSITIVE_INFINITY : ((step > 0 ? end - 0.5 : low) - from) / step;
    }

    /** A coordinate in fractions of a pixel, so that dropping the fraction rounds it. */
    private static int fixed(double at) {
        return (int) Math.floor((at + 0.5) * ONE);
    }

    private void fill(int x0, int y0, int x1, int y1, int pixel) {
        int left = Math.max(0, x0);
        int right = Math.min(width - 1, x1);
        if (left > right) {
            return;
        }
        int last = Math.min(height - 1, y1);
        boolean isNarrow = right - left < NARROW;
        for (int y = Math.max(0, y0); y <= last; y++) {
            int from = y * width + left;
            int to = y * width + right;
            if (isNarrow) {
                for (int at = from; at <= to; at++) {
                    pixels[at] = pixel;
                }
            } else {
                Arrays.fill(pixels, from, to + 1, pixel);
            }
        }
    }

    /** Straight sides lie on whole pixels; corners are smoothed. */
    @Override
    public void box(double x, double y, double w, double h, double round, int inside, int rim) {
        int left = (int) Math.round(x * density);
        int top = (int) Math.round(y * density);
        int right = (int) Math.round((x + w) * density) - 1;
        int bottom = (int) Math.round((y + h) * density) - 1;
        if (right < 0 || bottom < 0 || left >= width || top >= height) {
            return;
        }
        double radius = Math.min(round * density, Math.min(right - left + 1, bottom - top + 1)) / 2;
        if (radius < 1.5) {
            fill(left, top, right, bottom, rim);
            fill(left + rimWidth, top + rimWidth, right - rimWidth, bottom - rimWidth, inside);
            return;
        }
        int corner = (int) Math.ceil(radius);
        fill(left, top + corner, right, bottom - corner, rim);
        fill(left + rimWidth, top + corner, right - rimWidth, bottom - corner, inside);
        for (int row = 0; row < corner; row++) {
            double up = radius - row - 0.5;
            roundedRow(left, right, top + row, radius, up, inside, rim);
            if (bottom - row > top + row) {
                roundedRow(left, right, bottom - row, radius, up, inside, rim);
            }
        }
    }

    /** A row of pixels that lies {@code up} above the middles of a rectangle's corners. */
    private void roundedRow(
            int left, int right, int y, double radius, double up, int inside, int rim) {
        if (y < 0 || y >= height) {
            return;
        }
        // How many pixels from the side on the row is rim or corner; then it is the inside.
        double safe = radius - rimWidth - 1;
        double sure = safe > 0 ? safe * safe - up * up : 0;
        int middle = (left + right) / 2;
        int edge =
                sure > 0
                        ? Math.min(middle - left, (int) Math.ceil(radius - Math.sqrt(sure)))
                        : Math.min(middle - left, (int) Math.ceil(radius));
        for (int i = 0; i <= edge; i++) {
            double aside = Math.max(0, radius - i - 0.5);
            double distance = Math.sqrt(aside * aside + Math.max(0, up) * Math.max(0, up));
            double outer = Math.max(0, Math.min(1, radius - distance + 0.5));
            double inner = Math.max(0, Math.min(1, radius - distance - rimWidth + 0.5));
            if (outer > 0) {
                blend(left + i, y, outer, inner, inside, rim);
                if (right - i > left + i) {
                    blend(right - i, y, outer, inner, inside, rim);
                }
            }
        }
        boolean onTheRim = radius - Math.max(0, up) < rimWidth;
        fill(left + edge + 1, y, right - edge - 1, y, onTheRim ? rim : inside);
    }

    private void blend(int x, int y, double outer, double inner, int inside, int rim) {
        if (x >= 0 && x < width) {
            int at = y * width + x;
            int colour = mixed(rim, inside, inner);
            pixels[at] = outer >= 1 ? colour : mixed(pixels[at], colour, outer);
        }
    }

    private static int mixed(int one, int other, double share) {
        int part = (int) Math.round(share * 256);
        int even = (one & 0xff00ff) * (256 - part) + (other & 0xff00ff) * part;
        int odd = (one >>> 8 & 0xff00ff) * (256 - part) + (other >>> 8 & 0xff00ff) * part;
        return even >>> 8 & 0xff00ff | odd & 0xff00ff00;
    }

    /** The pixel at a place. */
    int at(int x, int y) {
        return pixels[y * width + x];
    }
}
