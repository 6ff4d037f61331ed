package padward.format.netlist;

import java.io.Reader;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import padward.base.BadInput;
import padward.format.source.Characters;
import padward.format.source.Source;

/** Reads the brackets of an EDIF file. */
final class BracketReader {
    private static final int DEEPEST = 1_000;
    private static final int LONGEST = 100_000;

    private final Characters text;

    BracketReader(Source source, Reader text) {
        this.text = new Characters(source, text);
    }

    private BadInput fault(String expected, String found) {
        return text.fault(Characters.place(text.line()), expected, found);
    }

    /** The outermost bracket. */
    Bracket readAll() throws BadInput {
        Deque<Bracket> open = new ArrayDeque<>();
        int c = text.get();
        while (c >= 0) {
            if (c == '(') {
                int line = text.line();
                c = skipBlanks(text.get());
                StringBuilder word = new StringBuilder();
                c = collect(c, word);
                Bracket bracket =
                        new Bracket(text.label(), word.toString(), line, new ArrayList<>());
                if (!open.isEmpty()) {
                    open.peek().items().add(bracket);
                }
                open.push(bracket);
                if (open.size() > DEEPEST) {
                    throw fault("at most " + DEEPEST + " brackets inside each other", "more");
                }
                continue;
            }
            if (c == ')') {
                if (open.isEmpty()) {
                    throw fault("\"(\"", "\")\"");
                }
                Bracket closed = open.pop();
                if (open.isEmpty()) {
                    return closed;
                }
            } else if (c > ' ') {
                if (open.isEmpty()) {
                    throw fault("\"(edif\"", "\"" + (char) c + "\"");
                }
                StringBuilder word = new StringBuilder();
                if (c == '"') {
                    readText(word);
                } else {
                    c = collect(c, word);
                    open.peek().items().add(word.toString());
                    continue;
                }
                open.peek().items().add(word.toString());
            }
            c = text.get();
        }
        throw fault(open.isEmpty() ? "\"(edif\"" : "\")\"", "the end of the file");
    }

    private void readText(StringBuilder word) throws BadInput {
        int c = text.get();
        while (c != '"') {
            if (c < 0 || word.length() > LONGEST) {
                throw fault("the end of the text", "none");
            }
            word.append((char) c);
            c = text.get();
        }
    }

    /** Collects a word; the character behind it. */
    private int collect(int first, StringBuilder word) throws BadInput {
        int c = first;
        while (c > ' ' && c != '(' && c != ')' && c != '"') {
            word.append((char) c);
            if (word.length() > LONGEST) {
                throw fault("a shorter word", "one of " + LONGEST + " characters");
            }
            c = text.get();
        }
        // an ampersand marks identifiers that begin with a figure
        if (word.length() > 1 && word.charAt(0) == '&') {
            word.deleteCharAt(0);
        }
        return c;
    }

    private int skipBlanks(int first) throws BadInput {
        int c = first;
        while (c >= 0 && c <= ' ') {
            c = text.get();
        }
        return c;
    }
}
