package padward.design.board;

import java.util.List;

/**
 * What a board's file states of a header, so that it can be drawn: nothing is drawn from a guess,
 * because a lead on the wrong pin can meet a supply.
 *
 * @param name its name on the board
 * @param pins number of pins
 * @param rows rows of pins, 1 or 2
 * @param numbering how the pins are numbered
 * @param seen the side of the board from which pin 1 is at the lower left
 * @param grounds names of its ground pins
 */
public record BoardHeader(
        String name, int pins, int rows, Numbering numbering, Side seen, List<String> grounds) {
    /** Copies the names. */
    public BoardHeader {
        grounds = List.copyOf(grounds);
    }

    /** How pins are numbered. */
    public enum Numbering {
        /** Pin 2 stands across from pin 1: odd pins in the first row, even ones in the second. */
        ACROSS,
        /** Row after row, each in the same direction. */
        ALONG,
        /** Along the first row and back along the second. */
        AROUND
    }

    /** A side of the board. */
    public enum Side {
        /** The side of the parts. */
        TOP,
        /** The other side. */
        BOTTOM
    }

    /** Pins in a row. */
    public int columns() {
        return (pins + rows - 1) / rows;
    }

    /** The row of a pin, from 0, counted from the row of pin 1. */
    public int rowOf(int pin) {
        return numbering == Numbering.ACROSS ? (pin - 1) % rows : (pin - 1) / columns();
    }

    /** The place of a pin in its row, from 0, counted from the end of pin 1. */
    public int columnOf(int pin) {
        if (numbering == Numbering.ACROSS) {
            return (pin - 1) / rows;
        }
        int along = (pin - 1) % columns();
        boolean back = numbering == Numbering.AROUND && rowOf(pin) == 1;
        return back ? columns() - 1 - along : along;
    }
}
