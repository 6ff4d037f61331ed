package padward.format.bsdl;

import java.io.IOException;
import java.io.PushbackReader;
import java.io.Reader;
import padward.base.BadInput;
import padward.format.IoFaults;
import padward.format.Source;
import padward.format.Text;

/**
 * The words of a BSDL file, which are those of VHDL: identifiers and numbers without regard to
 * case, texts in quotation marks, single marks; comments run from two dashes to the end of a line.
 */
final class BsdlWords {
    private static final int LONGEST = 1_000_000;

    private final Source source;
    private final PushbackReader text;
    private int line = 1;
    private int wordLine = 1;
    private String word = "";
    private boolean isText;

    BsdlWords(Source source, Reader text) {
        this.source = source;
        this.text = new PushbackReader(text, 1);
    }

    /** The word that was read last; empty at the end. */
    String word() {
        return word;
    }

    boolean is(String other) {
        return !isText && word.equalsIgnoreCase(other);
    }

    boolean isText() {
        return isText;
    }

    boolean isEnd() {
        return !isText && word.isEmpty();
    }

    String place() {
        return "line " + wordLine;
    }

    BadInput fault(String expected) {
        return new BadInput(
                source.label(),
                place(),
                expected,
                isEnd() ? "the end of the file" : Text.quote(word));
    }

    BadInput fault(String place, String expected, String found) {
        return new BadInput(source.label(), place, expected, found);
    }

    /** Moves to the next word. */
    void next() throws BadInput {
        try {
            read();
        } catch (IOException e) {
            throw IoFaults.describe(source, e);
        }
    }

    private void read() throws IOException, BadInput {
        int c = get();
        while (c >= 0 && (c <= ' ' || c == '-')) {
            if (c == '-') {
                int second = get();
                if (second != '-') {
                    back(second);
                    break;
                }
                while (c >= 0 && c != '\n') {
                    c = get();
                }
            } else {
                c = get();
            }
        }
        wordLine = line;
        isText = c == '"';
        StringBuilder all = new StringBuilder();
        if (isText) {
            for (c = get(); c != '"'; c = get()) {
                if (c < 0 || c == '\n' || all.length() > LONGEST) {
                    throw fault(place(), "the end of the text on its line", "none");
                }
                all.append((char) c);
            }
        } else if (c >= 0 && isPart(c)) {
            while (c >= 0 && isPart(c) && all.length() < LONGEST) {
                all.append((char) c);
                c = get();
            }
            back(c);
        } else if (c >= 0) {
            all.append((char) c);
        }
        word = all.toString();
    }

    private static boolean isPart(int c) {
        return Character.isLetterOrDigit(c) || c == '_' || c == '.';
    }

    private int get() throws IOException {
        int c = text.read();
        line += c == '\n' ? 1 : 0;
        return c;
    }

    private void back(int c) throws IOException {
        if (c >= 0) {
            text.unread(c);
            line -= c == '\n' ? 1 : 0;
        }
    }

    void expect(String mark) throws BadInput {
        if (!is(mark)) {
            throw fault("\"" + mark + "\"");
        }
        next();
    }

    /** An identifier; moves past it. */
    String identifier(String what) throws BadInput {
        if (isText || word.isEmpty() || !Character.isLetter(word.charAt(0))) {
            throw fault(what);
        }
        String name = word;
        next();
        return name;
    }

    int integer() throws BadInput {
        if (isText || !word.matches("[0-9]{1,6}")) {
            throw fault("a whole number");
        }
        int value = Integer.parseInt(word);
        next();
        return value;
    }

    /** Texts joined by {@code &}. */
    String joinedText() throws BadInput {
        StringBuilder all = new StringBuilder();
        while (true) {
            if (!isText) {
                throw fault("a text in quotation marks");
            }
            all.append(word);
            if (all.length() > 100 * LONGEST) {
                throw fault("a shorter text");
            }
            next();
            if (!is("&")) {
                return all.toString();
            }
            next();
        }
    }

    /** Moves past the next semicolon. */
    void skipStatement() throws BadInput {
        while (!is(";")) {
            if (isEnd()) {
                throw fault("\";\"");
            }
            next();
        }
        next();
    }
}
