package padward.capture;

import java.io.IOException;
import java.io.Reader;

/** The words of a VCD file, with their line numbers. */
final class VcdTokens {
    private static final int LONGEST = 1_000_000;

    private final Reader in;
    private int line = 1;
    private int wordLine = 1;

    VcdTokens(Reader in) {
        this.in = in;
    }

    /** The next word, {@code ""} at the end of the file. */
    String next() throws IOException {
        StringBuilder word = new StringBuilder();
        int c = in.read();
        while (c >= 0 && c <= ' ') {
            line += c == '\n' ? 1 : 0;
            c = in.read();
        }
        wordLine = line;
        while (c > ' ') {
            word.append((char) c);
            if (word.length() > LONGEST) {
                throw new IOException("a word of more than " + LONGEST + " characters");
            }
            c = in.read();
        }
        line += c == '\n' ? 1 : 0;
        return word.toString();
    }

    /** The line number of the last word read, from 1. */
    int line() {
        return wordLine;
    }
}
