package padward.cli;

import java.io.FilterWriter;
import java.io.IOException;
import java.io.Writer;
import java.util.Locale;

/**
 * Text for a terminal. What files contain is printed, too, and may contain characters that move the
 * cursor, change colours or turn the direction of text round: they are written as {@code \}{@code
 * u001b}, which is also how JSON writes them.
 */
final class PlainWriter extends FilterWriter {
    PlainWriter(Writer out) {
        super(out);
    }

    @Override
    public void write(int c) throws IOException {
        if (isPlain((char) c)) {
            out.write(c);
        } else {
            out.write(String.format(Locale.ROOT, "\\u%04x", c));
        }
    }

    @Override
    public void write(char[] text, int from, int length) throws IOException {
        int plain = from;
        for (int i = from; i < from + length; i++) {
            if (!isPlain(text[i])) {
                out.write(text, plain, i - plain);
                write(text[i]);
                plain = i + 1;
            }
        }
        out.write(text, plain, from + length - plain);
    }

    @Override
    public void write(String text, int from, int length) throws IOException {
        write(text.toCharArray(), from, length);
    }

    /** Whether a character does nothing but show itself, or end a line. */
    private static boolean isPlain(char c) {
        if (c == '\n' || c == '\r' || c == '\t') {
            return true;
        }
        // the marks, embeddings, overrides and isolates of the Unicode Bidirectional Algorithm
        boolean turns =
                c == '\u061c'
                        || c == '\u200e'
                        || c == '\u200f'
                        || c >= '\u202a' && c <= '\u202e'
                        || c >= '\u2066' && c <= '\u2069';
        return !Character.isISOControl(c) && !turns;
    }
}
