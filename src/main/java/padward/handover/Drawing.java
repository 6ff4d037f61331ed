package padward.handover;

import java.util.List;

/**
 * A small drawing of plain shapes, for both screens and paper. Lengths in points, from the upper
 * left corner; colours as {@code #rrggbb}.
 *
 * @param name what it shows, for readers who cannot see it
 * @param width its width
 * @param height its height
 * @param shapes from back to front
 */
public record Drawing(String name, double width, double height, List<Shape> shapes) {
    /** Copies the shapes. */
    public Drawing {
        shapes = List.copyOf(shapes);
    }

    /** Something drawn. */
    public sealed interface Shape {}

    /**
     * A rectangle.
     *
     * @param x left
     * @param y top
     * @param width its width
     * @param height its height
     * @param round radius of its corners
     * @param fill colour inside
     * @param line colour of its outline
     * @param lineWidth width of the outline
     */
    public record Box(
            double x,
            double y,
            double width,
            double height,
            double round,
            String fill,
            String line,
            double lineWidth)
            implements Shape {}

    /**
     * A centred text.
     *
     * @param x its centre
     * @param y its base line
     * @param size height of the font
     * @param bold whether it is bold
     * @param color its colour
     * @param text what it says
     */
    public record Words(double x, double y, double size, boolean bold, String color, String text)
            implements Shape {}
}
