package padward.format.source;

import java.io.IOException;
import java.io.PushbackReader;
import java.io.Reader;
import padward.base.BadInput;

/**
 * The characters of a text, one by one, with the number of their line: the base of readers of words
 * and brackets. A failure to read is a fault of the source.
 */
public final class Characters {
    /** How many characters can be given back. */
    private static final int BACK = 2;

    private final Source source;
    private final PushbackReader text;
    private int line = 1;

    /**
     * @param source the source that faults are reported for
     * @param text its text; the caller closes it
     */
    public Characters(Source source, Reader text) {
        this.source = source;
        this.text = new PushbackReader(text, BACK);
    }

    /** The next character; -1 at the end. */
    public int get() throws BadInput {
        try {
            int c = text.read();
            line += c == '\n' ? 1 : 0;
            return c;
        } catch (IOException e) {
            throw IoFaults.describe(source, e);
        }
    }

    /** Gives the character back that was read last, at most two of them in a row; the end stays. */
    public void back(int c) throws BadInput {
        if (c >= 0) {
            try {
                text.unread(c);
                line -= c == '\n' ? 1 : 0;
            } catch (IOException e) {
                throw IoFaults.describe(source, e);
            }
        }
    }

    /** Moves past the end of the line. */
    public void skipLine() throws BadInput {
        int c = get();
        while (c >= 0 && c != '\n') {
            c = get();
        }
    }

    /** The line of the next character, from 1. */
    public int line() {
        return line;
    }

    /** The source's name in messages. */
    public String label() {
        return source.label();
    }

    /** A line as the place of a fault. */
    public static String place(int line) {
        return "line " + line;
    }

    /** A fault at a place. */
    public BadInput fault(String place, String expected, String found) {
        return new BadInput(source.label(), place, expected, found);
    }
}
