package padward.format.source;

import java.io.IOException;
import java.io.Reader;

/**
 * Refuses a text literal that is longer than any the formats allow, before the parser collects it:
 * a few kilobytes of gzip data can contain a text of gigabytes.
 */
public final class BoundedText extends FollowedText {
    /** Each character of the longest text may be written as six. */
    private static final int LONGEST = 6 * FileLimits.NOTE + 2;

    private boolean inside;
    private boolean escaped;
    private int length;

    public BoundedText(Reader text) {
        super(text);
    }

    @Override
    protected void follow(char[] chars, int from, int to) throws IOException {
        int at = from;
        while (at < to) {
            int end = inside && !escaped ? endOfPlain(chars, at, to) : at;
            if (end == at) {
                follow(chars[at++]);
                continue;
            }
            length += end - at;
            if (length > LONGEST) {
                throw new TooLong();
            }
            at = end;
        }
    }

    /** Most of a file is plain text between marks, which only has to be counted. */
    private static int endOfPlain(char[] chars, int from, int to) {
        int end = from;
        while (end < to && chars[end] != '"' && chars[end] != '\\') {
            end++;
        }
        return end;
    }

    @Override
    protected void follow(char c) throws IOException {
        boolean blank = !inside && (c == ' ' || c == '\n' || c == '\r' || c == '\t');
        boolean mark = !inside && (c == ',' || c == ':' || c == '[' || c == ']' || c == '{');
        length = blank || mark ? 0 : length + 1;
        if (length > LONGEST) {
            throw new TooLong();
        }
        if (escaped) {
            escaped = false;
        } else if (c == '"') {
            inside = !inside;
            length = 0;
        } else {
            escaped = inside && c == '\\';
        }
    }

    /** A text without end. */
    static final class TooLong extends IOException {
        private static final long serialVersionUID = 1;

        TooLong() {
            super("a text of more than " + LONGEST + " characters");
        }
    }
}
