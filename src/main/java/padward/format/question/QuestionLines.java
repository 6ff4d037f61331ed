package padward.format.question;

import java.io.IOException;
import java.io.PushbackReader;
import java.io.Reader;
import java.util.Optional;
import padward.base.BadInput;
import padward.format.source.FileLimits;

/**
 * Reads questions line by line, and stores none of them. Lines are objects of JSON, or, when the
 * first character that is not blank is no brace, rows of a table under a header. A line that is at
 * fault does not spoil those after it.
 */
public final class QuestionLines {
    /** Longer lines are refused before they are stored; a note is the longest field there is. */
    private static final int LONGEST = 4 * FileLimits.NOTE;

    private final String source;
    private final PushbackReader text;
    private LineForm form;
    private long number;

    /**
     * Lines of a text.
     *
     * @param source what messages call it
     */
    public QuestionLines(String source, Reader text) {
        this.source = source;
        this.text = new PushbackReader(text);
    }

    /** How a line is read. */
    interface LineForm {
        /** The question of a line that is not blank. */
        WrittenQuestion read(String line, long number) throws BadInput;
    }

    /** The text of the schema of a line of JSON. */
    public static String schema() {
        return JsonQuestion.schema();
    }

    /** A line that is not blank: a question, or what is wrong with it. */
    public sealed interface Line {
        /** Its number in the text, from 1. */
        long number();

        /**
         * A question.
         *
         * @param question as it is written
         */
        record Asked(WrittenQuestion question) implements Line {
            @Override
            public long number() {
                return question.line();
            }
        }

        /**
         * A line that states none.
         *
         * @param number its number
         * @param fault what is wrong
         */
        record Faulty(long number, BadInput fault) implements Line {}
    }

    /**
     * The next line that is not blank; empty at the end.
     *
     * @throws BadInput when a table's header is at fault
     * @throws IOException when the text cannot be read any further
     */
    public Optional<Line> next() throws BadInput, IOException {
        StringBuilder line = new StringBuilder();
        while (readLine(line)) {
            number++;
            String words = line.toString(); // a tab at an end may be a separator
            if (words.isBlank()) {
                continue;
            }
            if (form == null) {
                if (words.stripLeading().startsWith("{")) {
                    form = new JsonQuestion(source);
                } else {
                    form = RowQuestion.under(words, source, number);
                    continue;
                }
            }
            return Optional.of(read(words));
        }
        return Optional.empty();
    }

    private Line read(String words) {
        try {
            if (words.length() >= LONGEST) {
                throw new BadInput(
                        source,
                        "line " + number,
                        "a line of at most " + LONGEST + " characters",
                        "a longer one");
            }
            return new Line.Asked(form.read(words, number));
        } catch (BadInput fault) {
            return new Line.Faulty(number, fault);
        }
    }

    /** Reads to the end of a line, of which it stores the start; false at the end of the text. */
    private boolean readLine(StringBuilder line) throws IOException {
        line.setLength(0);
        int c = text.read();
        if (c < 0) {
            return false;
        }
        while (c >= 0 && c != '\n' && c != '\r') {
            if (line.length() < LONGEST) {
                line.append((char) c);
            }
            c = text.read();
        }
        if (c == '\r') {
            int after = text.read();
            if (after >= 0 && after != '\n') {
                text.unread(after);
            }
        }
        return true;
    }
}
