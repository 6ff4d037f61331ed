package padward.watch.condition;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.IntPredicate;
import java.util.function.Predicate;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.BadInput;
import padward.watch.CircuitRun;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.StartState;
import padward.watch.logic.CircuitBuilder;

/** What conditions mean, in all values of their nets, and what is wrong with faulty ones. */
class ConditionTest {
    /** Nets of an invented design: two vectors of six and four bits, and single nets. */
    private static final Set<String> NETS = nets();

    static final ConditionNetNames NAMES =
            new ConditionNetNames() {
                @Override
                public boolean isNet(String name) {
                    return NETS.contains(name);
                }

                @Override
                public Stream<String> all() {
                    return NETS.stream();
                }
            };

    private static Set<String> nets() {
        Set<String> all = new TreeSet<>(List.of("alarm/beep", "in", "7up", "a&b", "g[x].q", "one"));
        IntStream.range(0, 6).forEach(i -> all.add("pump/count[" + i + "]"));
        IntStream.range(0, 6).forEach(i -> all.add("level[" + i + "]"));
        IntStream.range(2, 6).forEach(i -> all.add("odd[" + i + "]"));
        return all;
    }

    private static Condition parse(String text) throws BadInput {
        return ConditionParser.parse("--when", text, NAMES);
    }

    private static Circuit circuit(String text, int k) throws BadInput {
        CircuitBuilder builder = new CircuitBuilder(k);
        int literal = new ConditionLogic(builder, Optional.of("clk")).add(parse(text));
        builder.output("out", literal);
        return builder.build(
                new CircuitBuilder.About("trigger", "Test.", 0, StartState.any(0), List.of()));
    }

    private static int bit(String net) {
        return Integer.parseInt(net.substring(net.indexOf('[') + 1, net.length() - 1));
    }

    /** Compares a condition of the counter with plain code, for all its values. */
    private static void assertCounter(String text, IntPredicate expected) throws BadInput {
        for (int k : new int[] {2, 4, 6}) {
            CircuitRun run = new CircuitRun(circuit(text, k), i -> false);
            for (int count = 0; count < 64; count++) {
                int now = count;
                boolean out = run.output(net -> (now >> bit(net) & 1) != 0);
                assertThat(out).as(text + " at " + count).isEqualTo(expected.test(count));
                assertThat(new ConditionValue(n -> (now >> bit(n) & 1) != 0).of(parse(text)))
                        .as(text + " at " + count)
                        .isEqualTo(out);
            }
        }
    }

    @Test
    void comparisonsWithNumbersMeanWhatTheySay() throws BadInput {
        for (int value : new int[] {0, 1, 13, 31, 32, 48, 62, 63}) {
            assertCounter("pump/count == " + value, c -> c == value);
            assertCounter("pump/count[5:0] != " + value, c -> c != value);
            assertCounter("pump/count < " + value, c -> c < value);
            assertCounter("pump/count <= 6d" + value, c -> c <= value);
            assertCounter("pump/count > " + value, c -> c > value);
            assertCounter("pump/count>=0x" + Integer.toHexString(value), c -> c >= value);
            assertCounter(value + " < pump/count", c -> value < c);
            assertCounter(value + " >= pump/count", c -> value >= c);
        }
    }

    @Test
    void rangesMasksAndPartsMeanWhatTheySay() throws BadInput {
        assertCounter("pump/count in 6h10..6h1F", c -> c >= 16 && c <= 31);
        assertCounter("pump/count in 5 .. 5", c -> c == 5);
        assertCounter("pump/count == 6b1x0?01", c -> (c & 0b101011) == 0b100001);
        assertCounter("pump/count != 6'hx3", c -> (c & 0xf) != 3);
        assertCounter("pump/count == 0bx1", c -> (c & ~2) == 1);
        assertCounter("pump/count[3:1] == 3b1_0_1", c -> (c >> 1 & 7) == 5);
        assertCounter("pump/count[0:2] == 3b001", c -> (c & 7) == 4);
        assertCounter("pump/count[2]", c -> (c & 4) != 0);
        assertCounter("!pump/count[2] == 1", c -> (c & 4) == 0);
        assertCounter(
                "pump/count[0] && !(pump/count[1] || pump/count < 9) || pump/count == 2",
                c -> (c & 1) != 0 && !((c & 2) != 0 || c < 9) || c == 2);
        assertCounter("pump/count[5:3] == pump/count[2:0]", c -> c >> 3 == (c & 7));
        assertCounter("pump/count[5:3] < pump/count[2:0]", c -> c >> 3 < (c & 7));
        assertCounter("pump/count[5:3] >= pump/count[2:0]", c -> c >> 3 >= (c & 7));
        assertCounter("pump/count[5:3] > pump/count[2:0]", c -> c >> 3 > (c & 7));
        assertCounter("pump/count[5:3] <= pump/count[2:0]", c -> c >> 3 <= (c & 7));
        assertCounter("pump/count[5:3] != pump/count[2:0]", c -> c >> 3 != (c & 7));
    }

    /**
     * Of two vectors of four bits, the highest bit in which they differ says which is greater: the
     * function table that data sheets of the TTL part 7485, a comparator of four bits, publish
     * (from memory, recomputed). All 256 pairs, each row of that table by itself.
     */
    @Test
    void vectorsCompareAsThePublishedComparatorDoes() throws BadInput {
        int[][] rows = {{3, 1}, {3, -1}, {2, 1}, {2, -1}, {1, 1}, {1, -1}, {0, 1}, {0, -1}};
        String a = "pump/count[3:0]";
        String b = "level[3:0]";
        for (int k : new int[] {2, 4, 6}) {
            CircuitRun greater = new CircuitRun(circuit(a + " > " + b, k), i -> false);
            CircuitRun less = new CircuitRun(circuit(a + " < " + b, k), i -> false);
            CircuitRun equal = new CircuitRun(circuit(a + " == " + b, k), i -> false);
            for (int pair = 0; pair < 256; pair++) {
                int one = pair & 15;
                int other = pair >> 4;
                int said = 0;
                for (int[] row : rows) {
                    int bit = row[0];
                    boolean alikeAbove = one >> bit + 1 == other >> bit + 1;
                    boolean applies = alikeAbove && (one >> bit & 1) - (other >> bit & 1) == row[1];
                    said = applies ? row[1] : said;
                }
                Predicate<String> levels =
                        net -> ((net.startsWith("pump") ? one : other) >> bit(net) & 1) != 0;
                assertThat(
                                List.of(
                                        greater.output(levels),
                                        less.output(levels),
                                        equal.output(levels)))
                        .as(one + " and " + other + " in tables of " + k)
                        .containsExactly(said > 0, said < 0, said == 0);
            }
        }
    }

    /** Names with signs of the language in them, and words of the language as names. */
    @Test
    void anyNetCanBeNamed() throws BadInput {
        assertThat(parse("in").nets()).containsExactly("in");
        assertThat(parse("in in 0..1").nets()).containsExactly("in");
        assertThat(parse("\\7up && a\\&b").nets()).containsExactly("7up", "a&b");
        assertThat(parse("g[x].q==1").nets()).containsExactly("g[x].q");
        assertThat(parse("odd == 3").nets())
                .containsExactly("odd[2]", "odd[3]", "odd[4]", "odd[5]");
        assertThat(parse("rising(one)").needsClock()).isTrue();
        assertThat(parse("one||in").needsClock()).isFalse();
    }

    /** The names of these nets alone. */
    private static ConditionNetNames namesOf(String... nets) {
        return new ConditionNetNames() {
            @Override
            public boolean isNet(String name) {
                return List.of(nets).contains(name);
            }

            @Override
            public Stream<String> all() {
                return Stream.of(nets);
            }
        };
    }

    /** Exact names first, nets before vectors; of last parts, nets and vectors count alike. */
    @Test
    void aNameMeansOneNetOrOneVector() throws BadInput {
        ConditionNetNames names =
                namesOf(
                        "count[0]",
                        "count[1]",
                        "a/count",
                        "a/flag",
                        "b/flag[0]",
                        "b/flag[1]",
                        "c/only",
                        "d/wide[4]",
                        "d/wide[5]",
                        "e/gap[0]",
                        "e/gap[2]",
                        "both",
                        "both[0]",
                        "both[1]");
        assertThat(ConditionParser.nets("--nets", "count", names))
                .containsExactly("count[0]", "count[1]");
        assertThat(ConditionParser.parse("--when", "count == 2", names).nets())
                .containsExactly("count[0]", "count[1]");
        assertThat(ConditionParser.nets("--nets", "both", names)).containsExactly("both");
        assertThat(ConditionParser.nets("--nets", "ONLY", names)).containsExactly("c/only");
        assertThat(ConditionParser.nets("--nets", "wide", names))
                .containsExactly("d/wide[4]", "d/wide[5]");
        assertThat(ConditionParser.nets("--nets", "wide[5:4]", names))
                .containsExactly("d/wide[4]", "d/wide[5]");
        assertThat(ConditionParser.nets("--nets", "wide[5]", names)).containsExactly("d/wide[5]");
        assertThat(fault("flag", names))
                .hasMessage(
                        "--nets: expected the name of a net or vector, found “flag”, which matches a/flag, b/flag");
        assertThat(fault("gap", names)).hasMessageContaining("“e/gap”, which lacks some");
        assertThat(fault("countt", names)).hasMessageContaining("the nearest name is");
        assertThat(names.vectorRanges())
                .containsExactly(
                        "b/flag[1:0]", "both[1:0]", "count[1:0]", "d/wide[5:4]", "e/gap[2:0]");
    }

    private static BadInput fault(String text, ConditionNetNames names) {
        return catchThrowableOfType(
                BadInput.class, () -> ConditionParser.nets("--nets", text, names));
    }

    @Test
    void theBitsOfAVectorAreOfOneVector() throws BadInput {
        ConditionNetNames two =
                namesOf(
                        "sub/count[0]",
                        "sub/count[1]",
                        "sub/count[2]",
                        "sub/count[3]",
                        "count[0]",
                        "count[1]",
                        "x/y/part[0]",
                        "x/y/part[1]",
                        "a/twin[0]",
                        "b/twin[1]");
        assertThat(ConditionParser.parse("--when", "count == 2", two).nets())
                .containsExactly("count[0]", "count[1]");
        assertThat(ConditionParser.parse("--when", "count[1:0] == 2", two).nets())
                .containsExactly("count[0]", "count[1]");
        assertThat(ConditionParser.parse("--when", "sub/count[3:2] == 2", two).nets())
                .containsExactly("sub/count[2]", "sub/count[3]");
        assertThat(ConditionParser.parse("--when", "y/part == 2 && part[1:0] != 1", two).nets())
                .containsExactly("x/y/part[0]", "x/y/part[1]");
        assertThat(
                        catchThrowableOfType(
                                BadInput.class,
                                () -> ConditionParser.parse("--when", "count[3:0] == 2", two)))
                .hasMessageContaining("“count[2]”");
        for (String text : List.of("twin == 2", "twin[1:0] == 2")) {
            assertThat(
                            catchThrowableOfType(
                                    BadInput.class,
                                    () -> ConditionParser.parse("--when", text, two)))
                    .as(text)
                    .hasMessageContaining("“twin”, which matches a/twin, b/twin");
        }
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void edgesCompareWithTheCycleBefore(long seed) throws BadInput {
        Random random = new Random(seed);
        CircuitRun rising = new CircuitRun(circuit("rising(one)", 4), i -> random.nextBoolean());
        CircuitRun falling = new CircuitRun(circuit("falling(one) && in", 4), i -> true);
        CircuitRun value =
                new CircuitRun(circuit("rising(pump/count < 3) || falling(one)", 4), i -> false);
        boolean before = false;
        boolean lessBefore = false;
        for (int cycle = 0; cycle < 2000; cycle++) {
            boolean one = random.nextBoolean();
            boolean in = random.nextBoolean();
            int count = random.nextInt(6);
            Predicate<String> nets =
                    net ->
                            switch (net) {
                                case "one" -> one;
                                case "in" -> in;
                                default -> (count >> bit(net) & 1) != 0;
                            };
            if (cycle > 0) {
                assertThat(rising.output(nets)).isEqualTo(one && !before);
                assertThat(falling.output(nets)).isEqualTo(!one && before && in);
                assertThat(value.output(nets))
                        .isEqualTo(count < 3 && !lessBefore || !one && before);
            } else {
                List.of(rising, falling, value).forEach(run -> run.output(nets));
            }
            List.of(rising, falling, value).forEach(CircuitRun::edge);
            before = one;
            lessBefore = count < 3;
        }
    }

    /**
     * Four bits equal, greater, less: the magnitude comparator of any textbook, here by its
     * definition (Mano and Ciletti, Digital Design, section 4.8, from memory: A = B is the product
     * of all x_i = (A_i ⊙ B_i); A &gt; B = A3B3' + x3A2B2' + x3x2A1B1' + x3x2x1A0B0').
     */
    @Test
    void vectorsCompareAsAPublishedMagnitudeComparator() throws BadInput {
        CircuitRun greater = new CircuitRun(circuit("pump/count[3:0] > level[3:0]", 4), i -> false);
        CircuitRun equal = new CircuitRun(circuit("pump/count[3:0] == level[3:0]", 4), i -> false);
        for (int pair = 0; pair < 256; pair++) {
            boolean[] a = new boolean[4];
            boolean[] b = new boolean[4];
            boolean[] x = new boolean[4];
            for (int i = 0; i < 4; i++) {
                a[i] = (pair >> i & 1) != 0;
                b[i] = (pair >> 4 + i & 1) != 0;
                x[i] = a[i] == b[i];
            }
            Predicate<String> nets = net -> net.startsWith("pump") ? a[bit(net)] : b[bit(net)];
            assertThat(equal.output(nets)).isEqualTo(x[3] && x[2] && x[1] && x[0]);
            assertThat(greater.output(nets))
                    .isEqualTo(
                            a[3] && !b[3]
                                    || x[3] && a[2] && !b[2]
                                    || x[3] && x[2] && a[1] && !b[1]
                                    || x[3] && x[2] && x[1] && a[0] && !b[0]);
        }
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            quoteCharacter = '`',
            value = {
                "``; 1; a net, a number or “(”; the end",
                "one &&; 7; a net, a number or “(”; the end",
                "one & in; 5; &&, || or the end of the condition; “& in”",
                "(one || in; 11; “)” for the “(” at character 1; the end",
                "one); 4; &&, || or the end; “)”",
                "one == ; 7; a net, a number or “(”; the end",
                "pump == 3; 1; the name of a net or vector; names with it are pump/count",
                "pump/cuont == 3; 1; the name of a net or vector; nearest name is “pump/count”",
                "in && bep; 7; the name of a net or vector; nearest name is “beep”",
                "in && alarm/bep; 7; the name of a net or vector; nearest name is “alarm/beep”",
                "pump/count[6:0] == 3; 1; the name of a net; “pump/count[6]”",
                "pump/count[a:0] == 3; 1; two bit numbers; “[a:0]”",
                "pump/count[3 == 3; 11; “]” for this “[”; none",
                "pump/count; 11; a comparison, as “pump/count” has 6 bits; the end",
                "pump/count == 8h3F; 15; a number of 6 bits, as “pump/count” has; one of 8 bits",
                "pump/count == 64; 15; a number of at most 6 bits, as “pump/count” has; 64",
                "pump/count == 6h7F; 15; a number of 6 bits; “6h7F”",
                "pump/count == 6b0000000; 15; at most 6 digits; “6b0000000”",
                "pump/count == 6k11; 15; a number, such as 8h3F; “6k11”",
                "pump/count == 8d_; 15; a number, such as 8h3F; “8d_”",
                "pump/count == 6d__ && one; 15; a number, such as 8h3F; “6d__”",
                "pump/count == 0h11; 15; a width of 1 to 256 bits; “0h11”",
                "pump/count < 6b1xxxxx; 14; a number without x or ? after <; do not matter",
                "pump/count == level[4:0]; 15; a vector of 6 bits; “level[4:0]” of 5 bits",
                "pump/count in 5..3; 18; a number of at least 5; 3",
                "pump/count in 5; 16; “..” and the greatest number; the end",
                "pump/count in one; 15; a number; “one”",
                "pump/count in 1..6bx; 18; a number without x; do not matter",
                "3 == 4; 6; a net, as two numbers; a number",
                "3; 1; a comparison with a net; a number alone",
                "rising(one; 11; “)” for the “(” at character 7; the end",
                "one in; 7; a number; the end",
                "~one; 1; a net, a number or “(”; “~one”",
            })
    void aFaultNamesItsCharacter(String text, int character, String expected, String found) {
        BadInput fault = catchThrowableOfType(BadInput.class, () -> parse(text));
        assertThat(fault).as(text).isNotNull();
        assertThat(fault.getMessage()).startsWith("--when, at character " + character + ": ");
        assertThat(fault.expected()).contains(expected);
        assertThat(fault.found()).contains(found);
    }

    @Test
    void whateverIsWrittenEndsInAConditionOrAFault() {
        Random random = new Random(11);
        String[] words = {
            "one", "pump/count", "[3:0]", "==", "!", "(", ")", "&&", "||", "8h3F", "in", "..", "x",
            "rising", "\\", "[", "]", "'", " ", "6b1x", "<", ">=", "0x", "9", "ü", "\u0000"
        };
        for (int i = 0; i < 20_000; i++) {
            StringBuilder text = new StringBuilder();
            for (int w = random.nextInt(12); w >= 0; w--) {
                text.append(words[random.nextInt(words.length)]);
            }
            try {
                parse(text.toString()).nets();
            } catch (BadInput fault) {
                assertThat(fault.place()).startsWith("character ");
            }
        }
        assertThat(catchThrowableOfType(BadInput.class, () -> parse("!".repeat(500) + "one")))
                .hasMessageContaining("at most 100");
        assertThat(catchThrowableOfType(BadInput.class, () -> parse("(".repeat(500) + "one")))
                .hasMessageContaining("at most 100");
    }
}
