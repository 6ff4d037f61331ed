package padward.capture;

import java.io.BufferedReader;
import java.io.BufferedWriter;
import java.io.IOException;
import java.io.OutputStreamWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import padward.base.BadInput;
import padward.base.ReadFault;
import padward.base.WholeFile;

/**
 * Levels of some signals at successive times, in the value change dump format of IEEE 1364 (clause
 * 18). Two-valued: what is unknown or high-impedance in a file is taken as low.
 *
 * @param signals names of the signals
 * @param moments for each time at which a file states something, the signals that are high then
 */
public record Trace(List<String> signals, List<BitSet> moments) {
    /** More would not fit into memory. */
    private static final int MOST_MOMENTS = 2_000_000;

    /** Half a cycle in the unit of written files. */
    private static final int HALF = 5;

    /** More than a design has nets, and looked up in seconds. */
    private static final int MOST_BITS = 4_000_000;

    /** So that long names of wide variables take seconds, too. */
    private static final long MOST_LETTERS = 1_000_000_000;

    private static final Pattern RANGE = Pattern.compile("(.*)\\[(\\d{1,6}):(\\d{1,6})]");

    /** Types whose values are no levels. */
    private static final Set<String> NO_LEVELS = Set.of("real", "realtime", "string");

    private static final int FIRST_ID = 33;
    private static final int IDS = 94;

    /** Copies the lists. */
    public Trace {
        signals = List.copyOf(signals);
        moments = List.copyOf(moments);
    }

    /** Chooses the variables of a file that are read. */
    public interface Wanted {
        /**
         * The name under which a variable, or a bit of one, is read; empty when it is not.
         *
         * @param scopes its scopes, the outermost first
         * @param own its name
         */
        Optional<Named> name(List<String> scopes, String own);
    }

    /**
     * A name under which something is read.
     *
     * @param name the name
     * @param parts how many of the scopes and the own name say so; where two variables have the
     *     same name, the one with more is read
     */
    public record Named(String name, int parts) {}

    /**
     * What a signal is read from.
     *
     * @param id the identifier in the file
     * @param bit which bit of its values, from the right
     * @param parts as in {@link Named}
     * @param line of the declaration
     * @param rival the line of another one that says as much and is not the same; 0 for none
     */
    private record Source(String id, int bit, int parts, int line, int rival) {
        boolean isSame(Source other) {
            return id.equals(other.id) && bit == other.bit;
        }
    }

    /** A bit of the values of an identifier, from the right, and the place of its signal. */
    private record Target(int bit, int place) {}

    /**
     * Reads a file.
     *
     * @throws BadInput when it cannot be read, or is no such file
     */
    public static Trace read(Path file, Wanted wanted) throws BadInput {
        try (BufferedReader in = Files.newBufferedReader(file, StandardCharsets.ISO_8859_1)) {
            return new Reading(file.toString(), new VcdTokens(in), wanted).read();
        } catch (IOException fault) {
            throw ReadFault.of(file.toString(), fault);
        }
    }

    /** One file while it is read. */
    private static final class Reading {
        private final String file;
        private final VcdTokens words;
        private final Wanted wanted;
        private final Map<String, List<Target>> byId = new HashMap<>();
        private final Map<String, Source> sources = new LinkedHashMap<>();
        private final List<String> scope = new ArrayList<>();
        private final List<BitSet> moments = new ArrayList<>();
        private final BitSet now = new BitSet();
        private int bits;
        private long letters;
        private long scopeLetters;
        private long time = -1;

        Reading(String file, VcdTokens words, Wanted wanted) {
            this.file = file;
            this.words = words;
            this.wanted = wanted;
        }

        private BadInput fault(String expected, String found) {
            return new BadInput(file, "line " + words.line(), expected, found);
        }

        Trace read() throws IOException, BadInput {
            String word = words.next();
            while (!word.equals("$enddefinitions")) {
                if (!word.startsWith("$")) {
                    throw fault(
                            "a declaration of a value change dump",
                            word.isEmpty() ? "the end of the file" : word);
                }
                declare(word, untilEnd());
                word = words.next();
            }
            untilEnd();
            placeAll();
            for (word = words.next(); !word.isEmpty(); word = words.next()) {
                body(word);
            }
            if (time >= 0) {
                moments.add((BitSet) now.clone());
            }
            return new Trace(List.copyOf(sources.keySet()), moments);
        }

        private void declare(String word, List<String> parts) throws BadInput {
            if (word.equals("$scope")) {
                scope.add(parts.isEmpty() ? "" : Vcd.readable(parts.get(parts.size() - 1)));
                scopeLetters += scope.get(scope.size() - 1).length();
            } else if (word.equals("$upscope") && !scope.isEmpty()) {
                scopeLetters -= scope.remove(scope.size() - 1).length();
            } else if (word.equals("$var")) {
                variable(parts);
            }
        }

        private void variable(List<String> parts) throws BadInput {
            if (parts.size() < 4 || !parts.get(1).matches("\\d{1,6}")) {
                throw fault("type, size, identifier and name", String.join(" ", parts));
            }
            int width = Integer.parseInt(parts.get(1));
            String id = parts.get(2);
            byId.putIfAbsent(id, new ArrayList<>());
            if (NO_LEVELS.contains(parts.get(0))) {
                return;
            }
            bits += width;
            if (bits > MOST_BITS) {
                throw fault("at most " + MOST_BITS + " bits of variables", "more");
            }
            String own = Vcd.readable(String.join("", parts.subList(3, parts.size())));
            letters += width * (own.length() + scopeLetters);
            if (letters > MOST_LETTERS) {
                throw fault(
                        "at most "
                                + MOST_LETTERS
                                + " characters in the names of variables and their scopes",
                        "more");
            }
            if (width == 1) {
                source(own, id, 0);
                return;
            }
            Matcher range = RANGE.matcher(own);
            boolean ranged = range.matches();
            String base = ranged ? range.group(1) : own;
            int high = ranged ? Integer.parseInt(range.group(2)) : width - 1;
            int step = ranged && high < Integer.parseInt(range.group(3)) ? 1 : -1;
            for (int i = 0; i < width; i++) {
                source(base + "[" + (high + step * i) + "]", id, width - 1 - i);
            }
        }

        private void source(String own, String id, int bit) {
            Optional<Named> named = wanted.name(scope, own);
            if (named.isEmpty()) {
                return;
            }
            sources.merge(
                    named.get().name(),
                    new Source(id, bit, named.get().parts(), words.line(), 0),
                    Reading::better);
        }

        private static Source better(Source old, Source next) {
            if (next.parts() != old.parts()) {
                return next.parts() > old.parts() ? next : old;
            }
            // Two variables with one identifier are one.
            return old.isSame(next) || old.rival() > 0
                    ? old
                    : new Source(old.id(), old.bit(), old.parts(), old.line(), next.line());
        }

        private void placeAll() throws BadInput {
            int place = 0;
            for (Map.Entry<String, Source> signal : sources.entrySet()) {
                Source source = signal.getValue();
                if (source.rival() > 0) {
                    throw new BadInput(
                            file,
                            "",
                            "one variable for “" + signal.getKey() + "”",
                            "two, in lines " + source.line() + " and " + source.rival());
                }
                byId.get(source.id()).add(new Target(source.bit(), place));
                place++;
            }
        }

        private List<String> untilEnd() throws IOException, BadInput {
            List<String> parts = new ArrayList<>();
            for (String word = words.next(); !word.equals("$end"); word = words.next()) {
                if (word.isEmpty()) {
                    throw fault("$end", "the end of the file");
                }
                parts.add(word);
            }
            return parts;
        }

        private void body(String word) throws IOException, BadInput {
            char first = Character.toLowerCase(word.charAt(0));
            if (first == '#') {
                at(word);
            } else if (word.equals("$comment")) {
                untilEnd();
            } else if (first == 'b' || first == 'r' || first == 's') {
                change(word.substring(1), words.next());
            } else if ("01xz".indexOf(first) >= 0) {
                change(word.substring(0, 1), word.substring(1));
            } else if (first != '$') {
                throw fault("a change or a time", word);
            }
        }

        private void at(String word) throws BadInput {
            if (!word.matches("#\\d{1,18}") || Long.parseLong(word.substring(1)) < time) {
                throw fault("# and a time that does not fall", word);
            }
            long next = Long.parseLong(word.substring(1));
            if (time >= 0 && next > time) {
                if (moments.size() == MOST_MOMENTS) {
                    throw fault("at most " + MOST_MOMENTS + " times", "more");
                }
                moments.add((BitSet) now.clone());
            }
            time = next;
        }

        private void change(String value, String id) throws BadInput {
            List<Target> targets = byId.get(id);
            if (targets == null) {
                throw fault("an identifier that is declared", id.isEmpty() ? "none" : id);
            }
            for (Target target : targets) {
                // A short number is extended on the left by zeros.
                int digit = value.length() - 1 - target.bit();
                now.set(target.place(), digit >= 0 && value.charAt(digit) == '1');
            }
        }
    }

    /**
     * Writes a file in which each moment is a clock cycle of ten units: the clock is high in its
     * first half.
     *
     * @param clocks names of the clocks
     * @throws BadInput when it cannot be written
     */
    public void write(Path file, List<String> clocks, String about) throws BadInput {
        WholeFile.write(
                file,
                raw -> {
                    Writer out =
                            new BufferedWriter(new OutputStreamWriter(raw, StandardCharsets.UTF_8));
                    write(out, clocks, about);
                    out.flush();
                });
    }

    private void write(Writer out, List<String> clocks, String about) throws IOException {
        out.write("$comment " + about + " $end\n$timescale 1 ns $end\n$scope module design $end\n");
        for (int i = 0; i < clocks.size() + signals.size(); i++) {
            String name = i < clocks.size() ? clocks.get(i) : signals.get(i - clocks.size());
            out.write("$var wire 1 " + id(i) + " " + name.replaceAll("\\s", "_") + " $end\n");
        }
        out.write("$upscope $end\n$enddefinitions $end\n");
        for (int m = 0; m < moments.size(); m++) {
            out.write("#" + 2 * HALF * m + "\n");
            clocks(out, clocks, 1);
            for (int s = 0; s < signals.size(); s++) {
                boolean high = moments.get(m).get(s);
                if (m == 0 || high != moments.get(m - 1).get(s)) {
                    out.write((high ? "1" : "0") + id(clocks.size() + s) + "\n");
                }
            }
            out.write("#" + (2 * HALF * m + HALF) + "\n");
            clocks(out, clocks, 0);
        }
        out.write("#" + 2 * HALF * moments.size() + "\n");
    }

    private static void clocks(Writer out, List<String> clocks, int level) throws IOException {
        for (int c = 0; c < clocks.size(); c++) {
            out.write(level + id(c) + "\n");
        }
    }

    private static String id(int number) {
        StringBuilder id = new StringBuilder();
        for (int rest = number; rest >= 0; rest = rest / IDS - 1) {
            id.append((char) (FIRST_ID + rest % IDS));
        }
        return id.toString();
    }
}
