package padward.format.tables.csv;

import java.io.BufferedReader;
import java.io.IOException;
import java.util.Arrays;
import java.util.function.Predicate;

/** Finds what separates the fields of a text: comma, semicolon or tab. */
public final class Separator {
    private static final char[] SEPARATORS = {',', ';', '\t'};

    /** Characters of the first line: enough for every header. */
    private static final int HEADER_LENGTH = 10_000;

    private Separator() {}

    /**
     * The separator that splits the first line into the most known columns; the comma when there
     * are none. The reader is then at the start again. O(length of the line).
     *
     * @param text a text, at its start
     * @param known whether a table can have a column of that name
     */
    public static char find(BufferedReader text, Predicate<String> known) throws IOException {
        text.mark(HEADER_LENGTH);
        StringBuilder header = new StringBuilder();
        int c = text.read();
        while (c >= 0 && c != '\n' && c != '\r' && header.length() < HEADER_LENGTH - 1) {
            header.append((char) c);
            c = text.read();
        }
        text.reset();
        char best = SEPARATORS[0];
        long most = 0;
        for (char separator : SEPARATORS) {
            String[] names = header.toString().split(String.valueOf(separator), -1);
            long count = Arrays.stream(names).map(Separator::plain).filter(known).count();
            if (count > most) {
                most = count;
                best = separator;
            }
        }
        return best;
    }

    private static String plain(String name) {
        return name.replace("\"", "").strip();
    }
}
