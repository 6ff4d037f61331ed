package padward.format.tables.csv;

import java.io.IOException;
import java.io.Reader;
import padward.format.source.FileLimits;
import padward.format.source.InspectedText;

/**
 * Refuses a row that is longer than any table needs, before the parser collects it: a quotation
 * mark that is never closed would make one field of the rest of the file.
 */
final class BoundedRows extends InspectedText {
    /** A note is the longest field that there is. */
    static final int LONGEST = 4 * FileLimits.NOTE;

    private boolean quoted;
    private int length;

    BoundedRows(Reader text) {
        super(text);
    }

    @Override
    protected void follow(char c) throws IOException {
        quoted ^= c == '"';
        length = !quoted && (c == '\n' || c == '\r') ? 0 : length + 1;
        if (length > LONGEST) {
            throw new TooLong();
        }
    }

    /** A row without end. */
    static final class TooLong extends IOException {
        private static final long serialVersionUID = 1;

        TooLong() {
            super("a row of more than " + LONGEST + " characters; is a quotation mark open?");
        }
    }
}
