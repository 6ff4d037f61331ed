package padward.ui.draw;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import javafx.scene.paint.Color;

/**
 * What the painters of map and strip map draw on: a canvas or a file. Pixels, x to the right, y
 * downwards, (0, 0) at the upper left.
 */
public interface Surface {
    /** How a line is drawn: lengths of dash and gap follow the width; none means solid. */
    record Line(Color color, double width, double... dashes) {}

    /** On which side of its point a text is. */
    enum Align {
        /** To the right of the point. */
        LEFT,
        /** Centred on the point. */
        CENTER,
        /** To the left of the point. */
        RIGHT
    }

    /**
     * How a text is set; its middle is at the height of its point.
     *
     * @param size size of the letters, pixels
     * @param degrees clockwise rotation around its point
     */
    record Lettering(double size, Align align, Color color, double degrees) {
        private static final double LETTER = 0.58;

        /** Letters without rotation. */
        public Lettering(double size, Align align, Color color) {
            this(size, align, color, 0);
        }

        /** Approximate width of a text, pixels; the same for all surfaces. */
        public static double width(String text, double size) {
            return size * text.chars().mapToDouble(Lettering::width).sum();
        }

        /** A text in lines that are, approximately, no longer than a length. */
        public static List<String> lines(String text, double size, double length) {
            List<String> lines = new ArrayList<>();
            for (String word : text.split(" ")) {
                String last = lines.isEmpty() ? "" : lines.get(lines.size() - 1) + " ";
                if (!lines.isEmpty() && width(last + word, size) <= length) {
                    lines.set(lines.size() - 1, last + word);
                } else {
                    lines.add(word);
                }
            }
            return lines;
        }

        /** Approximate number of letters that fit into a length. */
        public static int room(double length, double size) {
            return (int) (length / (LETTER * size));
        }

        /** Approximate width of a letter of common sans-serif fonts, relative to its size. */
        private static double width(int letter) {
            if (" .,:;'|!ijl".indexOf(letter) >= 0) {
                return 0.32;
            }
            if ("ft()[]/r-".indexOf(letter) >= 0) {
                return 0.4;
            }
            if ("mwMW%".indexOf(letter) >= 0) {
                return 0.92;
            }
            return Character.isLowerCase(letter) ? 0.6 : 0.66;
        }
    }

    /** A filled rectangle; {@code round} is the diameter of its corners. */
    void fillRect(double x, double y, double w, double h, double round, Color fill);

    /** The outline of a rectangle. */
    void outlineRect(double x, double y, double w, double h, double round, Line line);

    /** A filled disc around a point. */
    void fillDisc(double x, double y, double r, Color fill);

    /** A circle around a point. */
    void outlineDisc(double x, double y, double r, Line line);

    /** A straight line with round ends. */
    void line(double x0, double y0, double x1, double y1, Line line);

    /** A filled polygon with an outline. */
    void polygon(double[] xs, double[] ys, Color fill, Line line);

    /** A text. */
    void text(String text, double x, double y, Lettering lettering);

    /** Names what is drawn inside, on surfaces that can record it. */
    void group(String name, Runnable inside);

    /** Draws numerous small shapes; called once per picture. */
    void marks(Consumer<Marks> painter);

    /** A grid of coloured cells over a rectangle, without smoothing. */
    void cells(TileImage cells, double x, double y, double w, double h);
}
