package padward.format.source;

import java.io.IOException;
import java.io.Reader;

/**
 * Refuses a text literal that is longer than any the formats allow, before the parser collects it:
 * a few kilobytes of gzip data can contain a text of gigabytes.
 */
public final class BoundedText extends InspectedText {
    /** Each character of the longest text may be written as six. */
    private static final int LONGEST = 6 * FileLimits.NOTE + 2;

    /** By character whether a number or word ends there. */
    private static final boolean[] ENDS = new boolean[128];

    static {
        " \n\r\t,:[]{".chars().forEach(c -> ENDS[c] = true);
    }

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
            if (!inside) {
                at = followOutside(chars, at, to);
            } else if (escaped) {
                escaped = false;
                at++;
                lengthen(1);
            } else {
                int end = endOfPlain(chars, at, to);
                lengthen(end - at);
                at = end < to ? endOfText(chars[end], end) : end;
            }
        }
    }

    private void lengthen(int by) throws IOException {
        length += by;
        if (length > LONGEST) {
            throw new TooLong();
        }
    }

    /** Follows what is between texts; the position where one begins, or the end. */
    private int followOutside(char[] chars, int from, int to) throws IOException {
        // kept apart from the fields, for half of a file is this
        int run = length;
        int at = from;
        while (at < to && chars[at] != '"') {
            char c = chars[at++];
            run = c < ENDS.length && ENDS[c] ? 0 : run + 1;
            if (run > LONGEST) {
                throw new TooLong();
            }
        }
        inside = at < to;
        length = inside ? 0 : run;
        return inside ? at + 1 : at;
    }

    /** The position behind a mark or a backslash in a text. */
    private int endOfText(char c, int at) throws IOException {
        if (c == '"') {
            inside = false;
            length = 0;
        } else {
            escaped = true;
            lengthen(1);
        }
        return at + 1;
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
        follow(new char[] {c}, 0, 1);
    }

    /** A text without end. */
    static final class TooLong extends IOException {
        private static final long serialVersionUID = 1;

        TooLong() {
            super("a text of more than " + LONGEST + " characters");
        }
    }
}
