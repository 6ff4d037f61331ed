package padward.design.board;

import java.util.Locale;

/** Kinds of thing that a board wires to a pad. */
public enum AttachmentKind {
    /** A pin of a header or connector. */
    HEADER,
    /** A test point. */
    TESTPOINT,
    /** A light. */
    LIGHT,
    /** A switch or button. */
    BUTTON,
    /** An output of another part: it drives the pad. */
    DRIVER,
    /** An input of another part. */
    LOAD,
    /** A pin of another part that is an input or an output by turns. */
    TWO_WAY,
    /** A pull-up or pull-down resistor. */
    PULL;

    /** The word used in files and on screens. */
    public String label() {
        return switch (this) {
            case TESTPOINT -> "test point";
            case TWO_WAY -> "two-way part";
            default -> name().toLowerCase(Locale.ROOT);
        };
    }

    /** Whether it is a place where an instrument's lead can be put. */
    public boolean probeable() {
        return this == HEADER || this == TESTPOINT;
    }

    /** Whether it does something with the signal on the pad. */
    public boolean listens() {
        return this == LOAD || this == TWO_WAY;
    }

    /** Whether it may drive the pad, against a driver in the chip. */
    public boolean drives() {
        return this == DRIVER || this == BUTTON || this == TWO_WAY;
    }
}
