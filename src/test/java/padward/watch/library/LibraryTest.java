package padward.watch.library;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.BadInput;
import padward.fabric.CellFunction;
import padward.fabric.CellKind;
import padward.watch.CircuitRun;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitElement;
import padward.watch.circuit.CircuitKinds;
import padward.watch.circuit.Signal;
import padward.watch.circuit.StartState;
import padward.watch.condition.ConditionNetNames;
import padward.watch.library.Specification.Rule;

/** Each circuit of the library shows what a specification says that was written without it. */
class LibraryTest {
    private static final String CLOCK = "clk";
    private static final int CYCLES = 10_000;

    /** Nets {@code n[0]} to {@code n[31]}. */
    private static final ConditionNetNames NAMES =
            new ConditionNetNames() {
                @Override
                public boolean isNet(String name) {
                    return all().anyMatch(name::equals);
                }

                @Override
                public Stream<String> all() {
                    return IntStream.range(0, 32).mapToObj(i -> "n[" + i + "]");
                }
            };

    static CircuitKinds kinds(int k) {
        List<String> pins = IntStream.range(0, k).mapToObj(i -> "a" + i).toList();
        return new CircuitKinds(
                CellKind.lookupTable(
                        "look",
                        new CellFunction.LookupTable(
                                pins, "y", "t", CellFunction.Digits.BINARY, "")),
                Optional.of(CellKind.register("keep", CellFunction.Register.of("d", "c", "q"))));
    }

    private static Event event(String text) throws BadInput {
        return Event.of("--when", text, NAMES);
    }

    private static List<String> nets(int count) {
        return IntStream.range(0, count).mapToObj(i -> "n[" + i + "]").toList();
    }

    /** The run of a circuit over drawn levels, with what its first output was in each cycle. */
    private static final class Drawn {
        private final List<boolean[]> past = new ArrayList<>();
        private final List<Boolean> out = new ArrayList<>();
        private final List<Boolean> marker = new ArrayList<>();
        private final Circuit circuit;

        /** Levels change seldom for some nets and often for others; registers start anyhow. */
        Drawn(Recipe recipe, int k, long seed, int cycles) throws BadInput {
            circuit = recipe.circuit(kinds(k));
            Random random = new Random(seed);
            CircuitRun run = new CircuitRun(circuit, i -> random.nextBoolean());
            boolean[] levels = new boolean[32];
            for (int t = 0; t < cycles; t++) {
                for (int i = 0; i < levels.length; i++) {
                    levels[i] ^= random.nextInt(1 + i % 5) == 0;
                }
                // the last net is high now and then only
                levels[31] = random.nextInt(40) == 0;
                past.add(levels.clone());
                boolean[] now = levels;
                out.add(run.output(net -> now[number(net)]));
                if (circuit.outputs().size() > 1) {
                    marker.add(run.output(net -> now[number(net)], 1));
                }
                run.edge();
            }
        }

        private static int number(String net) {
            return Integer.parseInt(net.substring(2, net.length() - 1));
        }
    }

    private static void assertShows(Recipe recipe, Rule rule) throws BadInput {
        for (int k : new int[] {2, 4, 6}) {
            Drawn drawn = new Drawn(recipe, k, 100 + k, CYCLES);
            StartState start = drawn.circuit.start();
            boolean known = start.kind() == StartState.Kind.ANY_STATE;
            int from = known ? Math.max(start.cycles(), drawn.circuit.latency()) : 400;
            for (int t = from; t < CYCLES; t++) {
                if (drawn.out.get(t) != rule.at(drawn.past, t)) {
                    throw new AssertionError(recipe + " with tables of " + k + ", cycle " + t);
                }
            }
            assertThat(drawn.circuit.clocks()).isSubsetOf(CLOCK);
            for (CircuitElement element : drawn.circuit.elements()) {
                assertThat(element.inputs()).hasSizeLessThanOrEqualTo(k);
            }
        }
    }

    private static int number(boolean[] nets, int low, int bits) {
        int number = 0;
        for (int i = 0; i < bits; i++) {
            number |= nets[low + i] ? 1 << i : 0;
        }
        return number;
    }

    @Test
    void triggers() throws BadInput {
        Event when = event("n[7:0] == 8h3x && !n[8]");
        Specification.OfNets so = n -> number(n, 4, 4) == 3 && !n[8];
        assertShows(new Trigger(when, Optional.empty(), false), Specification.now(so));
        assertShows(new Trigger(when, Optional.of(CLOCK), true), Specification.later(1, so));
        assertShows(
                new Trigger(event("rising(n[3]) || n[3:0] in 2..5"), Optional.of(CLOCK), false),
                (past, t) ->
                        past.get(t)[3] && !past.get(t - 1)[3]
                                || number(past.get(t), 0, 4) >= 2
                                        && number(past.get(t), 0, 4) <= 5);
        assertShows(
                new Trigger(event("falling(n[4])"), Optional.of(CLOCK), true),
                (past, t) -> !past.get(t - 1)[4] && past.get(t - 2)[4]);
    }

    @ParameterizedTest
    @ValueSource(ints = {2, 3, 4, 5, 8, 11, 16})
    void selects(int count) throws BadInput {
        int bits = Integer.SIZE - Integer.numberOfLeadingZeros(count - 1);
        List<Signal> steer =
                IntStream.range(0, bits)
                        .<Signal>mapToObj(i -> new Signal.Observed("n[" + (20 + i) + "]"))
                        .toList();
        Specification.OfNets chosen = n -> number(n, 20, bits) < count && n[number(n, 20, bits)];
        assertShows(new Select(nets(count), steer, Optional.empty()), Specification.now(chosen));
        assertShows(
                new Select(nets(count), steer, Optional.of(CLOCK)), Specification.later(1, chosen));
    }

    @ParameterizedTest
    @ValueSource(ints = {2, 3, 6, 16})
    void counts(int count) throws BadInput {
        for (int each : new int[] {1, 3, 8}) {
            Drawn drawn = new Drawn(new Count(nets(count), CLOCK, each), 4, count, 4000);
            int from = drawn.circuit.start().cycles();
            int first = from;
            while (!drawn.marker.get(first) || drawn.marker.get(first - 1)) {
                first++;
            }
            for (int t = first; t < 4000; t++) {
                int slot = (t - first) / each % count;
                assertThat(drawn.marker.get(t)).isEqualTo(slot == 0);
                assertThat(drawn.out.get(t)).isEqualTo(drawn.past.get(t - 1)[slot]);
            }
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {2, 3, 4, 5, 6, 7, 10, 12, 100, 127, 128, 1000, 1001})
    void divides(int by) throws BadInput {
        Drawn drawn = new Drawn(new Divide(CLOCK, by, Optional.empty()), 4, by, 8 * by + 10);
        assertPeriod(drawn.out.subList(drawn.circuit.start().cycles(), drawn.out.size()), by);
    }

    /** Each window of a period has as many high levels as stated, in one run. */
    private static void assertPeriod(List<Boolean> out, int by) {
        for (int t = by; t < out.size(); t++) {
            List<Boolean> window = out.subList(t - by, t);
            assertThat(window.stream().filter(high -> high).count()).isEqualTo(by / 2);
            assertThat(out.get(t)).isEqualTo(out.get(t - by));
        }
        int rising = 0;
        for (int t = 1; t <= by; t++) {
            rising += out.get(t) && !out.get(t - 1) ? 1 : 0;
        }
        assertThat(rising).isEqualTo(1);
    }

    @ParameterizedTest
    @ValueSource(ints = {2, 3, 6, 16})
    void dividesWhatCounts(int by) throws BadInput {
        Divide recipe = new Divide(CLOCK, by, Optional.of(event("n[2] && n[1]")));
        Drawn drawn = new Drawn(recipe, 4, by, CYCLES);
        List<Boolean> counted = new ArrayList<>();
        for (int t = drawn.circuit.start().cycles(); t < CYCLES; t++) {
            boolean[] before = drawn.past.get(t - 1);
            if (before[2] && before[1]) {
                counted.add(drawn.out.get(t));
            } else {
                assertThat(drawn.out.get(t)).isEqualTo(drawn.out.get(t - 1));
            }
        }
        assertPeriod(counted.subList(6 * by, counted.size()), by);
    }

    @Test
    void theGreatestDivisorsHaveTheirPeriods() throws BadInput {
        for (int by : new int[] {65_535, 65_536, 65_534}) {
            CircuitRun run =
                    new CircuitRun(
                            new Divide(CLOCK, by, Optional.empty()).circuit(kinds(4)), i -> true);
            List<Integer> rising = new ArrayList<>();
            boolean before = true;
            for (int t = 0; t < 5 * by; t++) {
                boolean now = run.output(net -> false);
                if (now && !before) {
                    rising.add(t);
                }
                before = now;
                run.edge();
            }
            int last = rising.size() - 1;
            assertThat(rising.get(last) - rising.get(last - 1)).isEqualTo(by);
            assertThat(rising.get(last - 1) - rising.get(last - 2)).isEqualTo(by);
        }
    }

    @Test
    void togglesStretchesAndRemembers() throws BadInput {
        Drawn drawn = new Drawn(new Toggle(event("n[3]"), CLOCK), 4, 3, CYCLES);
        boolean first = drawn.out.get(2);
        int base = Specification.edges(drawn.past, 2, n -> n[3]);
        for (int t = 2; t < CYCLES; t++) {
            int since =
                    Specification.edges(drawn.past.subList(Math.max(0, t - 2), t), 2, n -> n[3]);
            assertThat(drawn.out.get(t))
                    .isEqualTo(t == 2 ? first : drawn.out.get(t - 1) ^ since > 0);
        }
        assertThat(base).isLessThan(3);
        for (int cycles : new int[] {2, 3, 4, 5, 16, 37, 100}) {
            assertShows(
                    new Stretch(event("n[31]"), CLOCK, cycles),
                    Specification.stretched(cycles, n -> n[31]));
        }
        assertShows(
                new Sticky(event("n[4] && n[9]"), CLOCK, Optional.of(event("n[31]"))),
                Specification.remembered(n -> n[4] && n[9], n -> n[31]));
    }

    @Test
    void takesOverAndSummarises() throws BadInput {
        assertShows(new Registered("n[5]", CLOCK), Specification.later(1, n -> n[5]));
        assertShows(new Synchronised("n[5]", CLOCK), Specification.later(2, n -> n[5]));
        for (int count : new int[] {1, 5, 16, 31}) {
            assertShows(
                    new AnyChange(nets(count), CLOCK),
                    (past, t) ->
                            number(past.get(t - 1), 0, count) != number(past.get(t - 2), 0, count));
        }
        for (int count : new int[] {2, 4, 7, 31}) {
            Specification.OfNets odd = n -> Integer.bitCount(number(n, 0, count)) % 2 != 0;
            assertShows(new Parity(nets(count), Optional.empty()), Specification.now(odd));
            assertShows(new Parity(nets(count), Optional.of(CLOCK)), Specification.later(1, odd));
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 3, 16, 30})
    void checksAreRemainders(int count) throws BadInput {
        Signature recipe = new Signature(nets(count), CLOCK, event("n[31]"), Optional.empty());
        Drawn drawn = new Drawn(recipe, 4, count, 2000);
        for (int t = 400; t < 2000; t += 7) {
            int check = Specification.check(drawn.past, t, count, n -> n[31]);
            assertThat(drawn.out.get(t)).isEqualTo((check & 0x8000) != 0);
        }
    }

    /**
     * The check of the nine characters 123456789 with polynomial 1021 and all ones at the start is
     * 29B1 (the check value that catalogues of cyclic redundancy checks publish for it; ITU-T V.41
     * defines the polynomial).
     */
    @Test
    void theSignatureOfThePublishedTextIsThePublishedCheck() throws BadInput {
        Circuit circuit =
                new Signature(List.of("n[0]"), CLOCK, event("n[1]"), Optional.of(event("n[2]")))
                        .circuit(kinds(4));
        CircuitRun run = new CircuitRun(circuit, i -> i % 3 == 0);
        run.output(net -> net.equals("n[1]"));
        run.edge();
        for (byte letter : "123456789".getBytes(StandardCharsets.US_ASCII)) {
            for (int bit = 7; bit >= 0; bit--) {
                boolean level = (letter >> bit & 1) != 0;
                run.output(net -> net.equals("n[0]") && level);
                run.edge();
            }
        }
        int shown = 0;
        for (int bit = 0; bit < 16; bit++) {
            shown = shown << 1 | (run.output(net -> net.equals("n[2]")) ? 1 : 0);
            run.edge();
        }
        assertThat(shown).isEqualTo(0x29B1);
    }

    /**
     * Without an input, the check is a shift register with feedback x^16 + x^12 + x^5 + 1, whose
     * states come again after 32,767 cycles: it is x + 1 times a primitive polynomial of degree 15
     * (Peterson and Brown, Proc. IRE 49, 1961, from memory: such a check finds all double errors up
     * to that length; recomputed).
     */
    @Test
    void withoutInputTheSignatureHasThePublishedPeriod() throws BadInput {
        int period = 32_767;
        Circuit circuit =
                new Signature(List.of("n[0]"), CLOCK, event("n[1]"), Optional.empty())
                        .circuit(kinds(4));
        CircuitRun run = new CircuitRun(circuit, i -> false);
        run.output(net -> net.equals("n[1]"));
        run.edge();
        BitSet out = new BitSet();
        for (int t = 0; t < 2 * period; t++) {
            out.set(t, run.output(net -> false));
            run.edge();
        }
        for (int shift : new int[] {period, period / 7, period / 31, period / 151}) {
            boolean same =
                    IntStream.range(0, period).allMatch(t -> out.get(t) == out.get(t + shift));
            assertThat(same).as("period " + shift).isEqualTo(shift == period);
        }
    }

    @Test
    void numbersOutOfRangeAndMissingPartsAreFaults() throws BadInput {
        CircuitKinds four = kinds(4);
        assertFault(new Divide(CLOCK, 1, Optional.empty()), four, "divide, at --by", "found 1");
        assertFault(new Divide(CLOCK, 65_537, Optional.empty()), four, "divide", "2 to 65536");
        assertFault(new Stretch(event("n[1]"), CLOCK, 1), four, "stretch, at --cycles", "found 1");
        assertFault(
                new Select(nets(17), List.of(), Optional.empty()), four, "--nets", "2 to 16 nets");
        assertFault(new Select(nets(4), List.of(), Optional.empty()), four, "--by", "found none");
        assertFault(
                new Select(nets(4), List.of(new Signal.Observed("n[9]")), Optional.empty()),
                four,
                "select, at --by",
                "expected 2 nets or pads, to choose between 4 nets, found 1");
        assertFault(
                new Sticky(event("n[1]"), CLOCK, Optional.of(event("n[2] || !n[2]"))),
                four,
                "sticky, at --reset",
                "always true");
        assertFault(new Trigger(event("n[1]"), Optional.empty(), true), four, "--clock", "none");
        assertFault(
                new Trigger(event("rising(n[1])"), Optional.empty(), false),
                four,
                "clock",
                "compares cycles");
        assertFault(
                new Trigger(event("n[1] && !n[1]"), Optional.empty(), false),
                four,
                "trigger, at --when: expected a condition that depends on its nets",
                "never true");
        assertFault(new Sticky(event("n[1]"), CLOCK, Optional.empty()), four, "--reset", "none");
        assertFault(
                new Registered("n[1]", CLOCK),
                new CircuitKinds(four.table(), Optional.empty()),
                "states a register",
                "without");
    }

    private static void assertFault(
            Recipe recipe, CircuitKinds kinds, String first, String second) {
        BadInput fault = catchThrowableOfType(BadInput.class, () -> recipe.circuit(kinds));
        assertThat(fault).as(recipe.toString()).isNotNull();
        assertThat(fault.getMessage()).contains(first, second);
    }

    /** Numbers of cells that a reader can check by hand, for tables of four inputs. */
    @Test
    void circuitsAreSmall() throws BadInput {
        assertThat(cells(new Registered("n[1]", CLOCK))).isEqualTo(1);
        assertThat(cells(new Synchronised("n[1]", CLOCK))).isEqualTo(2);
        assertThat(cells(new Toggle(event("n[1]"), CLOCK))).isEqualTo(3);
        assertThat(cells(new Trigger(event("n[7:0] == 8h3F"), Optional.empty(), false)))
                .isEqualTo(3);
        assertThat(cells(new Trigger(event("n[7:0] > 8h30"), Optional.empty(), false)))
                .isLessThanOrEqualTo(3);
        assertThat(cells(new Divide(CLOCK, 2, Optional.empty()))).isEqualTo(2);
        assertThat(cells(new Divide(CLOCK, 16, Optional.empty()))).isEqualTo(8);
        assertThat(cells(new Divide(CLOCK, 65_536, Optional.empty()))).isLessThanOrEqualTo(38);
        assertThat(cells(select(4))).isEqualTo(2);
        assertThat(cells(select(8))).isEqualTo(5);
        assertThat(cells(select(16))).isEqualTo(10);
    }

    private static Select select(int count) {
        List<Signal> steer =
                List.of("A", "B", "C", "D").stream()
                        .<Signal>map(Signal.AtPad::new)
                        .limit(Integer.numberOfTrailingZeros(count))
                        .toList();
        return new Select(nets(count), steer, Optional.empty());
    }

    private static int cells(Recipe recipe) throws BadInput {
        return recipe.circuit(kinds(4)).elements().size();
    }

    @Test
    void whatACircuitDoesIsSaidInASentence() throws BadInput {
        assertThat(new Divide(CLOCK, 5, Optional.empty()).circuit(kinds(4)).function())
                .isEqualTo("One period for every 5 cycles of clk; high for 2 of the 5.");
        assertThat(new Stretch(event("n[1]"), CLOCK, 8).circuit(kinds(4)).function())
                .isEqualTo(
                        "High for 8 cycles of clk from one cycle after each cycle in which"
                                + " “n[1]” is true.");
        assertThat(
                        new Trigger(event(" n[3:0]==7"), Optional.of(CLOCK), true)
                                .circuit(kinds(4))
                                .function())
                .isEqualTo("High while “n[3:0]==7” is true, one cycle of clk later.");
    }
}
