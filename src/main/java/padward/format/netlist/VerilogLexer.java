package padward.format.netlist;

import java.io.Reader;
import java.util.Set;
import padward.base.BadInput;
import padward.fabric.FabricLimits;
import padward.format.source.Characters;
import padward.format.source.Source;
import padward.format.source.Text;

/**
 * The words of Verilog text (IEEE 1364-2005, clause 3): identifiers, escaped identifiers (a
 * backslash, printable characters, and the white space that ends them), numbers, strings and single
 * marks. Comments, attributes and harmless compiler directives are skipped.
 */
final class VerilogLexer {
    /** What a word is. */
    enum Sort {
        /** A plain identifier or keyword. */
        WORD,
        /** An escaped identifier: never a keyword, its name without the backslash. */
        ESCAPED,
        /** A number as written, {@code 4'b0101} or {@code 12}. */
        NUMBER,
        /** A text in quotation marks, without them. */
        STRING,
        /** One character. */
        MARK,
        /** The end of the file. */
        END
    }

    private static final Set<String> BEHAVIOUR =
            Set.of(
                    "always",
                    "initial",
                    "reg",
                    "integer",
                    "real",
                    "time",
                    "function",
                    "task",
                    "generate",
                    "genvar",
                    "defparam",
                    "specify",
                    "primitive",
                    "event",
                    "for",
                    "if",
                    "case");

    private static final int LONGEST = 100_000;

    private final Characters text;

    private Sort sort = Sort.END;
    private String word = "";
    private int wordLine = 1;

    VerilogLexer(Source source, Reader text) {
        this.text = new Characters(source, text);
    }

    Sort sort() {
        return sort;
    }

    /** The current word. */
    String word() {
        return word;
    }

    String place() {
        return Characters.place(wordLine);
    }

    boolean isMark(char mark) {
        return sort == Sort.MARK && word.charAt(0) == mark;
    }

    boolean isWord(String keyword) {
        return sort == Sort.WORD && word.equals(keyword);
    }

    BadInput fault(String expected) {
        String found = sort == Sort.END ? "the end of the file" : Text.quote(word);
        return fault(place(), expected, found);
    }

    BadInput fault(String place, String expected, String found) {
        return text.fault(place, expected, found);
    }

    /** Moves to the next word. */
    void next() throws BadInput {
        int c = afterBlanks();
        wordLine = text.line();
        if (c < 0) {
            sort = Sort.END;
            word = "";
        } else if (c == '\\') {
            sort = Sort.ESCAPED;
            word = collect(text.get(), ch -> ch > ' ');
        } else if (isIdentifierStart(c)) {
            sort = Sort.WORD;
            word = collect(c, VerilogLexer::isIdentifierPart);
        } else if (c >= '0' && c <= '9' || c == '\'') {
            sort = Sort.NUMBER;
            word = number(c);
        } else if (c == '"') {
            sort = Sort.STRING;
            word = string();
        } else {
            sort = Sort.MARK;
            word = String.valueOf((char) c);
        }
    }

    private static boolean isIdentifierStart(int c) {
        return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c == '_';
    }

    private static boolean isIdentifierPart(int c) {
        return isIdentifierStart(c) || c >= '0' && c <= '9' || c == '$';
    }

    /**
     * The first character that is no white space, comment, attribute or directive; -1 at the end.
     */
    private int afterBlanks() throws BadInput {
        while (true) {
            int c = text.get();
            if (c == '`') {
                VerilogDirectives.skip(text);
            } else if (c == '/') {
                int second = text.get();
                if (second == '/') {
                    text.skipLine();
                } else if (second == '*') {
                    skipTo('*', '/', "the end of the comment");
                } else {
                    text.back(second);
                    return c;
                }
            } else if (c == '(') {
                int second = text.get();
                int third = second == '*' ? text.get() : -1;
                if (second == '*' && third != ')') {
                    text.back(third);
                    skipTo('*', ')', "the end of the attribute");
                } else {
                    text.back(third);
                    text.back(second);
                    return c;
                }
            } else if (c < 0 || c > ' ') {
                return c;
            }
        }
    }

    private void skipTo(char first, char second, String what) throws BadInput {
        int begun = text.line();
        int before = 0;
        for (int c = text.get(); c >= 0; c = text.get()) {
            if (before == first && c == second) {
                return;
            }
            before = c;
        }
        throw fault(Characters.place(begun), what, "the end of the file");
    }

    /** {@code 12}, {@code 4'b01x}, {@code 8 'shff}: white space may come before the base. */
    private String number(int first) throws BadInput {
        StringBuilder all = new StringBuilder();
        int c = first;
        if (c != '\'') {
            all.append(collect(c, ch -> ch >= '0' && ch <= '9' || ch == '_'));
            c = text.get();
            while (c == ' ' || c == '\t') {
                c = text.get();
            }
        }
        if (c != '\'') {
            text.back(c);
            return all.toString();
        }
        all.append('\'');
        c = text.get();
        if (c == 's' || c == 'S') {
            c = text.get();
        }
        all.append((char) c);
        c = text.get();
        while (c == ' ' || c == '\t') {
            c = text.get();
        }
        return all.append(collect(c, ch -> isIdentifierPart(ch) || ch == '?')).toString();
    }

    private String string() throws BadInput {
        StringBuilder all = new StringBuilder();
        for (int c = text.get(); c != '"'; c = text.get()) {
            if (c < 0 || c == '\n' || all.length() > LONGEST) {
                throw fault(place(), "the end of the text on its line", "none");
            }
            all.append((char) c);
            if (c == '\\') {
                all.append((char) text.get());
            }
        }
        return all.toString();
    }

    private interface Part {
        boolean has(int c);
    }

    private String collect(int first, Part part) throws BadInput {
        StringBuilder all = new StringBuilder();
        int c = first;
        while (c >= 0 && part.has(c)) {
            all.append((char) c);
            if (all.length() > FabricLimits.NAME_LENGTH) {
                throw fault(
                        place(),
                        "at most " + FabricLimits.NAME_LENGTH + " characters",
                        Text.quote(all.toString()));
            }
            c = text.get();
        }
        text.back(c);
        return all.toString();
    }

    /** Whether the word begins a behavioural description, which is not read. */
    boolean isBehaviour() {
        return sort == Sort.WORD && BEHAVIOUR.contains(word);
    }

    /** Whether a list goes on; past its end otherwise. */
    boolean another() throws BadInput {
        if (isMark(',')) {
            next();
            return true;
        }
        expectMark(';');
        return false;
    }

    /** An identifier of either sort; moves past it. */
    String identifier(String what) throws BadInput {
        boolean plain = sort == Sort.WORD && !isBehaviour() && !word.equals("endmodule");
        if (!plain && sort != Sort.ESCAPED || word.isEmpty()) {
            throw fault(what);
        }
        String name = word;
        next();
        return name;
    }

    /** Moves past a mark that must come here. */
    void expectMark(char mark) throws BadInput {
        if (!isMark(mark)) {
            throw fault("\"" + mark + "\"");
        }
        next();
    }

    /** Moves past the next semicolon. */
    void skipStatement() throws BadInput {
        while (!isMark(';')) {
            if (sort == Sort.END) {
                throw fault("\";\"");
            }
            next();
        }
        next();
    }

    /** Moves past the bracket that closes the one here. */
    void skipBrackets() throws BadInput {
        int depth = 0;
        do {
            depth += isMark('(') ? 1 : isMark(')') ? -1 : 0;
            if (sort == Sort.END) {
                throw fault("\")\"");
            }
            next();
        } while (depth > 0);
    }
}
