package padward.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/**
 * Reads the part of SDF (IEEE 1497-2001) that hand-overs use, after the grammar of its clause 5
 * (from memory): the header's parts in the standard's order; cells with type, instance and absolute
 * delays; INTERCONNECT with two ports and a list of 1, 2, 3, 6 or 12 values, each a number, a
 * triple with gaps, or nothing. Anything else is refused.
 */
final class SdfReader {
    record Interconnect(String from, String to, List<List<String>> delays) {}

    record File(
            String version, String divider, String timescale, List<Interconnect> interconnects) {}

    private static final List<String> HEADER =
            List.of(
                    "SDFVERSION",
                    "DESIGN",
                    "DATE",
                    "VENDOR",
                    "PROGRAM",
                    "VERSION",
                    "DIVIDER",
                    "VOLTAGE",
                    "PROCESS",
                    "TEMPERATURE",
                    "TIMESCALE");
    private static final Set<Integer> COUNTS = Set.of(1, 2, 3, 6, 12);

    private final String text;
    private int at;

    private SdfReader(String text) {
        this.text = text;
    }

    static File read(String text) {
        return new SdfReader(text).file();
    }

    private File file() {
        open("DELAYFILE");
        String version = "";
        String divider = ".";
        String timescale = "1ns";
        int last = -1;
        while (!ahead("CELL")) {
            expect('(');
            String word = word().toUpperCase(Locale.ROOT);
            int place = HEADER.indexOf(word);
            check(place > last, "the header's parts in their order, not " + word);
            last = place;
            switch (word) {
                case "DIVIDER" -> {
                    divider = word();
                    check(divider.equals(".") || divider.equals("/"), "a divider . or /");
                }
                case "TIMESCALE" -> {
                    timescale = word();
                    check(timescale.matches("(1|10|100)(s|ms|us|ns|ps|fs)"), "a timescale");
                }
                default -> {
                    String quoted = quoted();
                    version = word.equals("SDFVERSION") ? quoted : version;
                }
            }
            expect(')');
        }
        check(version.matches("\\d\\.\\d"), "a version");
        List<Interconnect> wires = new ArrayList<>();
        while (!ahead(")")) {
            cell(divider, wires);
        }
        expect(')');
        skip();
        check(at == text.length(), "the end");
        return new File(version, divider, timescale, wires);
    }

    private void cell(String divider, List<Interconnect> wires) {
        open("CELL");
        open("CELLTYPE");
        quoted();
        expect(')');
        open("INSTANCE");
        if (!ahead(")")) {
            path(divider);
        }
        expect(')');
        open("DELAY");
        open("ABSOLUTE");
        while (!ahead(")")) {
            open("INTERCONNECT");
            String from = path(divider);
            String to = path(divider);
            List<List<String>> values = new ArrayList<>();
            while (!ahead(")")) {
                values.add(value());
            }
            check(COUNTS.contains(values.size()), "1, 2, 3, 6 or 12 values");
            expect(')');
            wires.add(new Interconnect(from, to, values));
        }
        expect(')');
        expect(')');
        expect(')');
    }

    private List<String> value() {
        expect('(');
        if (ahead(")")) {
            expect(')');
            return List.of();
        }
        int from = at;
        while (text.charAt(at) != ')') {
            at++;
        }
        String[] parts = text.substring(from, at).split(":", -1);
        check(parts.length == 1 || parts.length == 3, "one number or three");
        boolean any = false;
        for (String part : parts) {
            check(part.isEmpty() || part.matches("\\d+(\\.\\d+)?"), "a number, not " + part);
            any |= !part.isEmpty();
        }
        check(any, "at least one number");
        expect(')');
        return List.of(parts);
    }

    /**
     * Identifiers with dividers between: letters, digits, _, and what a backslash stands before.
     */
    private String path(String divider) {
        skip();
        StringBuilder result = new StringBuilder();
        boolean begun = false;
        while (!Character.isWhitespace(text.charAt(at)) && "()".indexOf(text.charAt(at)) < 0) {
            char c = text.charAt(at);
            if (divider.charAt(0) == c) {
                check(begun, "an identifier before " + divider);
                begun = false;
            } else if (c == '\\') {
                at++;
                check(!Character.isWhitespace(text.charAt(at)), "a character to escape");
                begun = true;
            } else {
                check(c < 128 && (Character.isLetterOrDigit(c) || c == '_'), "no bare " + c);
                begun = true;
            }
            result.append(text.charAt(at++));
        }
        check(begun, "an identifier");
        return result.toString();
    }

    private void open(String keyword) {
        expect('(');
        String word = word();
        check(word.equalsIgnoreCase(keyword), keyword + ", not " + word);
    }

    private String word() {
        skip();
        int from = at;
        while (!Character.isWhitespace(text.charAt(at)) && "()\"".indexOf(text.charAt(at)) < 0) {
            at++;
        }
        return text.substring(from, at);
    }

    private String quoted() {
        expect('"');
        int from = at;
        while (text.charAt(at) != '"') {
            at++;
        }
        return text.substring(from, at++);
    }

    private void expect(char c) {
        skip();
        check(text.charAt(at) == c, "“" + c + "”");
        at++;
    }

    private boolean ahead(String word) {
        skip();
        return text.startsWith(word, at) || text.startsWith("(" + word + " ", at);
    }

    private void skip() {
        while (at < text.length() && Character.isWhitespace(text.charAt(at))) {
            at++;
        }
    }

    private void check(boolean holds, String expected) {
        if (!holds) {
            String here = text.substring(at, Math.min(text.length(), at + 30));
            throw new AssertionError("expected " + expected + " at “" + here + "”");
        }
    }
}
