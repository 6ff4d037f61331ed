package padward.ui.watch;

import java.util.List;

/**
 * A drawing of a circuit, as places: names of nets at the left, boxes for its cells, pads at the
 * right, and horizontal and vertical lines between them. Pixels at the usual size of letters, y
 * downwards.
 *
 * @param width its width
 * @param height its height
 * @param boxes what the lines connect
 * @param wires a value each, with all its lines
 */
record CircuitDiagram(double width, double height, List<Box> boxes, List<Wire> wires) {
    /** Copies the lists. */
    CircuitDiagram {
        boxes = List.copyOf(boxes);
        wires = List.copyOf(wires);
    }

    /** What a box stands for. */
    enum Kind {
        /** A net of the design, or a pad that is read: its name alone. */
        SOURCE,
        /** A lookup table. */
        TABLE,
        /** A register. */
        REGISTER,
        /** A pad that shows an output. */
        PAD
    }

    /**
     * A cell, or an end of the circuit.
     *
     * @param kind what it is
     * @param text its name
     * @param below what stands below it, such as the clock; may be empty
     */
    record Box(Kind kind, String text, String below, double x, double y, double w, double h) {
        /** Height of its middle. */
        double middle() {
            return y + h / 2;
        }

        /** Its right edge. */
        double right() {
            return x + w;
        }
    }

    /**
     * All lines of one value.
     *
     * @param lines horizontal and vertical lines
     * @param dots where they branch
     */
    record Wire(List<Line> lines, List<Point> dots) {
        /** Copies the lists. */
        Wire {
            lines = List.copyOf(lines);
            dots = List.copyOf(dots);
        }
    }

    /** A straight line. */
    record Line(double x0, double y0, double x1, double y1) {}

    /** A place. */
    record Point(double x, double y) {}
}
