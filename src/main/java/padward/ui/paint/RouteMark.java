package padward.ui.paint;

import padward.ui.draw.Palette;
import padward.ui.draw.Surface;

/**
 * How one of several routes is told from the others: by colour, dashes and the shape at its ends.
 * Colours and shapes change at different paces, so that twenty marks in a row all differ.
 *
 * @param number the mark's number, from 0
 */
public record RouteMark(int number) {
    private static final double WIDTH = 3;
    private static final double SIZE = 6;
    private static final double[][] DASHES = {{}, {12, 5}, {3, 6}};

    /** The marks' shapes. */
    private enum Shape {
        DISC,
        SQUARE,
        TRIANGLE,
        DIAMOND,
        CROSS
    }

    /** Its line. */
    Surface.Line line(Palette colors) {
        return new Surface.Line(
                colors.several().get(number % colors.several().size()),
                WIDTH,
                DASHES[number % DASHES.length]);
    }

    /** Its shape around a point, with a rim of paper. */
    void paintShape(Surface out, Palette colors, double x, double y) {
        var fill = line(colors).color();
        Surface.Line rim = new Surface.Line(colors.paper(), 2);
        switch (Shape.values()[number % Shape.values().length]) {
            case DISC -> {
                out.fillDisc(x, y, SIZE + 1, colors.paper());
                out.fillDisc(x, y, SIZE, fill);
            }
            case SQUARE ->
                    out.polygon(
                            new double[] {x - SIZE, x + SIZE, x + SIZE, x - SIZE},
                            new double[] {y - SIZE, y - SIZE, y + SIZE, y + SIZE},
                            fill,
                            rim);
            case TRIANGLE ->
                    out.polygon(
                            new double[] {x - SIZE - 1, x + SIZE + 1, x},
                            new double[] {y + SIZE, y + SIZE, y - SIZE - 1},
                            fill,
                            rim);
            case DIAMOND ->
                    out.polygon(
                            new double[] {x - SIZE - 1, x, x + SIZE + 1, x},
                            new double[] {y, y - SIZE - 1, y, y + SIZE + 1},
                            fill,
                            rim);
            case CROSS -> {
                for (Surface.Line line :
                        new Surface.Line[] {
                            new Surface.Line(colors.paper(), 7), new Surface.Line(fill, 4)
                        }) {
                    out.line(x - SIZE, y - SIZE, x + SIZE, y + SIZE, line);
                    out.line(x - SIZE, y + SIZE, x + SIZE, y - SIZE, line);
                }
            }
        }
    }

    /** A sample between two x, around a y. */
    void paintSample(Surface out, Palette colors, double left, double right, double y) {
        out.line(left, y, right, y, line(colors));
        paintShape(out, colors, (left + right) / 2, y);
    }
}
