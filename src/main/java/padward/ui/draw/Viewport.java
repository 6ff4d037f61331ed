package padward.ui.draw;

/**
 * The part of the fabric that a canvas shows. World: one unit per tile, x to the right, y upwards,
 * tile (0, 0) from 0 to 1. Screen: pixels, x to the right, y downwards. Immutable.
 *
 * @param width width of the canvas, pixels
 * @param height height of the canvas, pixels
 * @param centreX world x in the middle of the canvas
 * @param centreY world y in the middle of the canvas
 * @param scale pixels per tile
 */
public record Viewport(double width, double height, double centreX, double centreY, double scale) {
    /** Least scale, pixels per tile. */
    public static final double LEAST_SCALE = 0.5;

    /** Greatest scale, pixels per tile. */
    public static final double GREATEST_SCALE = 12_000;

    private static final double MARGIN = 0.92;

    /** Screen x of a world x. */
    public double screenX(double worldX) {
        return width / 2 + (worldX - centreX) * scale;
    }

    /** Screen y of a world y. */
    public double screenY(double worldY) {
        return height / 2 - (worldY - centreY) * scale;
    }

    /** World x of a screen x. */
    public double worldX(double screenX) {
        return centreX + (screenX - width / 2) / scale;
    }

    /** World y of a screen y. */
    public double worldY(double screenY) {
        return centreY - (screenY - height / 2) / scale;
    }

    /** The same part on a canvas of another size. */
    public Viewport resized(double newWidth, double newHeight) {
        return new Viewport(newWidth, newHeight, centreX, centreY, scale);
    }

    /** Moved so that everything appears (dx, dy) pixels farther. */
    public Viewport panned(double dx, double dy) {
        return new Viewport(width, height, centreX - dx / scale, centreY + dy / scale, scale);
    }

    /** Zoomed by a factor; what is at the screen point stays there. */
    public Viewport zoomedAt(double screenX, double screenY, double factor) {
        double next = clampScale(scale * factor);
        double x = worldX(screenX);
        double y = worldY(screenY);
        return new Viewport(
                width,
                height,
                x - (screenX - width / 2) / next,
                y + (screenY - height / 2) / next,
                next);
    }

    /** Centred on a world point, at the same scale. */
    public Viewport centredOn(double worldX, double worldY) {
        return new Viewport(width, height, worldX, worldY, scale);
    }

    /** At another scale, around the same centre. */
    public Viewport atScale(double newScale) {
        return new Viewport(width, height, centreX, centreY, clampScale(newScale));
    }

    /**
     * Fits a world rectangle into the view with a margin, at most at {@code nearest} pixels per
     * tile.
     */
    public Viewport fitted(double x0, double y0, double x1, double y1, double nearest) {
        double wide = Math.max(x1 - x0, 1e-6);
        double high = Math.max(y1 - y0, 1e-6);
        double fit = MARGIN * Math.min(width / wide, height / high);
        return new Viewport(
                width, height, (x0 + x1) / 2, (y0 + y1) / 2, clampScale(Math.min(fit, nearest)));
    }

    private static double clampScale(double wanted) {
        return Math.max(LEAST_SCALE, Math.min(GREATEST_SCALE, wanted));
    }
}
