package padward.base;

import java.io.BufferedReader;
import java.io.IOException;

/** The byte order mark that some programs put before a text in UTF-8. */
public final class OrderMark {
    private static final char MARK = '\uFEFF';

    private OrderMark() {}

    /** Passes over the mark if it comes next. */
    public static void skip(BufferedReader text) throws IOException {
        text.mark(1);
        if (text.read() != MARK) {
            text.reset();
        }
    }
}
