package padward.format.bsdl;

import java.io.Reader;
import padward.base.BadInput;
import padward.format.source.Characters;
import padward.format.source.Source;
import padward.format.source.Text;

/**
 * The words of a BSDL file, which are those of VHDL: identifiers and numbers without regard to
 * case, texts in quotation marks, single marks; comments run from two dashes to the end of a line.
 */
final class BsdlWords {
    private static final int LONGEST = 1_000_000;

    private final Characters text;
    private int wordLine = 1;
    private String word = "";
    private boolean isText;

    BsdlWords(Source source, Reader text) {
        this.text = new Characters(source, text);
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
        return Characters.place(wordLine);
    }

    BadInput fault(String expected) {
        return fault(place(), expected, isEnd() ? "the end of the file" : Text.quote(word));
    }

    BadInput fault(String place, String expected, String found) {
        return text.fault(place, expected, found);
    }

    /** Moves to the next word. */
    void next() throws BadInput {
        int c = afterBlanks();
        wordLine = text.line();
        isText = c == '"';
        StringBuilder all = new StringBuilder();
        if (isText) {
            for (c = text.get(); c != '"'; c = text.get()) {
                if (c < 0 || c == '\n' || all.length() > LONGEST) {
                    throw fault(place(), "the end of the text on its line", "none");
                }
                all.append((char) c);
            }
        } else if (c >= 0 && isPart(c)) {
            while (c >= 0 && isPart(c) && all.length() < LONGEST) {
                all.append((char) c);
                c = text.get();
            }
            text.back(c);
        } else if (c >= 0) {
            all.append((char) c);
        }
        word = all.toString();
    }

    private static boolean isPart(int c) {
        return Character.isLetterOrDigit(c) || c == '_' || c == '.';
    }

    /** The first character that is neither white space nor of a comment; -1 at the end. */
    private int afterBlanks() throws BadInput {
        while (true) {
            int c = text.get();
            if (c == '-') {
                int second = text.get();
                if (second != '-') {
                    text.back(second);
                    return c;
                }
                text.skipLine();
            } else if (c < 0 || c > ' ') {
                return c;
            }
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
