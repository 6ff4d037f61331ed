package padward.capture;

import java.math.BigInteger;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.StringTokenizer;

/**
 * A general reader of value change dumps, after the text of IEEE 1364-2001, clause 18, alone: free
 * format, words between white space, sections from a keyword to {@code $end}, value changes after
 * the time that they follow. It shares no code with the project, and refuses what the grammar does
 * not have.
 */
final class VcdReader {
    /** A change: when, in femtoseconds, and to what; vectors extended on the left. */
    record Change(BigInteger fs, String value) {}

    /** A variable: its kind and size, and its changes in the order of the file. */
    record Variable(String kind, int size, List<Change> changes) {}

    private static final List<String> UNITS = List.of("fs", "ps", "ns", "us", "ms", "s");

    private final StringTokenizer words;
    private final Map<String, Variable> byName = new LinkedHashMap<>();
    private final Map<String, Variable> byCode = new LinkedHashMap<>();
    private final Deque<String> scopes = new ArrayDeque<>();
    private BigInteger unit;
    private BigInteger now = BigInteger.ZERO;
    private boolean timed;

    private VcdReader(String text) {
        words = new StringTokenizer(text, " \t\r\n");
    }

    /** All variables by their full names, scopes and name with dots between. */
    static Map<String, Variable> read(String text) {
        VcdReader reader = new VcdReader(text);
        reader.declarations();
        reader.changes();
        return reader.byName;
    }

    private String word() {
        require(words.hasMoreTokens(), "more of the file");
        return words.nextToken();
    }

    private static void require(boolean holds, String what) {
        if (!holds) {
            throw new IllegalArgumentException("expected " + what);
        }
    }

    private List<String> section() {
        List<String> result = new ArrayList<>();
        for (String word = word(); !word.equals("$end"); word = word()) {
            result.add(word);
        }
        return result;
    }

    private void declarations() {
        for (String keyword = word(); ; keyword = word()) {
            List<String> text = section();
            switch (keyword) {
                case "$comment", "$date", "$version" -> {}
                case "$timescale" -> unit = timescale(String.join("", text));
                case "$scope" -> {
                    require(text.size() == 2, "a kind of scope and a name");
                    require(
                            List.of("begin", "fork", "function", "module", "task")
                                    .contains(text.get(0)),
                            "a kind of scope");
                    scopes.addLast(text.get(1));
                }
                case "$upscope" -> {
                    require(text.isEmpty() && !scopes.isEmpty(), "a scope that is open");
                    scopes.removeLast();
                }
                case "$var" -> variable(text);
                case "$enddefinitions" -> {
                    require(text.isEmpty() && unit != null, "a timescale before");
                    return;
                }
                default -> throw new IllegalArgumentException("no keyword: " + keyword);
            }
        }
    }

    private static BigInteger timescale(String text) {
        int digits = 0;
        while (Character.isDigit(text.charAt(digits))) {
            digits++;
        }
        require(List.of("1", "10", "100").contains(text.substring(0, digits)), "1, 10 or 100");
        int power = UNITS.indexOf(text.substring(digits));
        require(power >= 0, "a unit of time");
        return new BigInteger(text.substring(0, digits)).multiply(BigInteger.TEN.pow(3 * power));
    }

    private void variable(List<String> text) {
        require(text.size() == 4 || text.size() == 5, "kind, size, code, name and perhaps bits");
        String code = text.get(2);
        require(code.chars().allMatch(c -> c >= '!' && c <= '~'), "a code of printable characters");
        String name = text.get(3) + (text.size() == 5 ? text.get(4) : "");
        List<String> path = new ArrayList<>(scopes);
        path.add(name);
        Variable known = byCode.get(code);
        Variable made =
                known != null
                        ? known
                        : new Variable(
                                text.get(0), Integer.parseInt(text.get(1)), new ArrayList<>());
        byCode.put(code, made);
        require(byName.put(String.join(".", path), made) == null, "each name once");
    }

    private void changes() {
        String dump = "";
        while (words.hasMoreTokens()) {
            String word = word();
            char first = word.charAt(0);
            if (first == '#') {
                BigInteger time = new BigInteger(word.substring(1)).multiply(unit);
                require(!timed || time.compareTo(now) >= 0, "times in their order");
                now = time;
                timed = true;
            } else if (word.equals("$comment")) {
                section();
            } else if (word.startsWith("$dump")) {
                require(dump.isEmpty(), "the end of " + dump);
                require(
                        List.of("$dumpvars", "$dumpall", "$dumpon", "$dumpoff").contains(word),
                        "a kind of dump");
                dump = word;
            } else if (word.equals("$end")) {
                require(!dump.isEmpty(), "a dump before its end");
                dump = "";
            } else if ("bBrR".indexOf(first) >= 0) {
                change(word(), vector(first, word.substring(1)));
            } else {
                require("01xXzZ".indexOf(first) >= 0, "a value, not " + word);
                change(word.substring(1), word.substring(0, 1).toLowerCase());
            }
        }
        require(dump.isEmpty(), "the end of " + dump);
    }

    private static String vector(char kind, String digits) {
        if (kind == 'r' || kind == 'R') {
            return "" + Double.parseDouble(digits);
        }
        require(digits.matches("[01xXzZ]+"), "binary digits");
        return digits.toLowerCase();
    }

    private void change(String code, String value) {
        Variable variable = byCode.get(code);
        require(variable != null, "a code that is declared, not " + code);
        String full = value;
        if (!variable.kind().equals("real")) {
            require(value.length() <= variable.size(), "no more digits than the size");
            char left = value.charAt(0) == '1' ? '0' : value.charAt(0);
            full = String.valueOf(left).repeat(variable.size() - value.length()) + value;
        }
        variable.changes().add(new Change(now, full));
    }
}
