package padward.watch.library;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import padward.base.BadInput;
import padward.base.Listing;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitKinds;
import padward.watch.circuit.StartState;
import padward.watch.condition.ConditionLogic;
import padward.watch.logic.CircuitBuilder;
import padward.watch.logic.LogicGraph;
import padward.watch.logic.Magnitudes;
import padward.watch.logic.ManyInputFunctions;

/** One circuit while it is made: what all recipes share. */
final class RecipeBuilder {
    static final String OUT = "out";

    /** Greatest number of cycles or events that a circuit counts. */
    static final int MOST_COUNTED = 1 << 16;

    private final String word;
    private final CircuitKinds kinds;
    private final CircuitBuilder builder;
    private final Optional<String> clock;
    private final ConditionLogic conditions;
    private final List<String> cautions = new ArrayList<>();

    /**
     * Begins a circuit without a clock, or with one.
     *
     * @throws BadInput when there is a clock, but the fabric states no kind that is a register
     */
    RecipeBuilder(String word, CircuitKinds kinds, Optional<String> clock) throws BadInput {
        this.word = word;
        this.kinds = kinds;
        this.clock = clock;
        this.builder = new CircuitBuilder(kinds.tableInputs());
        this.conditions = new ConditionLogic(builder, clock);
        if (clock.isPresent() && kinds.register().isEmpty()) {
            throw fault(
                    "cellKinds",
                    "a fabric with a kind of cell that states a register",
                    "one without");
        }
    }

    CircuitKinds kinds() {
        return kinds;
    }

    CircuitBuilder builder() {
        return builder;
    }

    LogicGraph logic() {
        return builder.logic();
    }

    ManyInputFunctions many() {
        return builder.many();
    }

    Magnitudes magnitudes() {
        return builder.magnitudes();
    }

    ConditionLogic conditions() {
        return conditions;
    }

    String clock() {
        return clock.orElseThrow();
    }

    /**
     * A condition as a literal.
     *
     * @param option the option that states the condition
     */
    int event(String option, Event event) throws BadInput {
        if (event.condition().needsClock() && clock.isEmpty()) {
            throw fault("--clock", "a clock, as " + event.quoted() + " compares cycles", "none");
        }
        int literal = conditions.add(event.condition());
        if (literal == LogicGraph.LOW || literal == LogicGraph.HIGH) {
            String always = literal == LogicGraph.HIGH ? "always true" : "never true";
            throw fault(
                    option,
                    "a condition that depends on its nets",
                    event.quoted() + ", which is " + always);
        }
        return literal;
    }

    /** Literals of nets. */
    List<Integer> nets(List<String> names) {
        return names.stream().map(builder::net).toList();
    }

    /** A register in the circuit's clock, whatever its initial value is. */
    int registered(String name, int data) {
        return builder.registered(name, clock(), data);
    }

    /** A register of the circuit's clock that is driven later. */
    int register(String name) {
        return builder.register(name, clock(), Optional.empty());
    }

    /**
     * A counter of a number of states, 0 to the last, that steps while a literal is high. It works
     * from any state: beyond the last it goes on to 0 at the latest where its bits end.
     */
    List<Integer> counter(String name, int states, int step) {
        List<Integer> bits = builder.registers(name, bitsFor(states), clock());
        int restart = logic().and(step, magnitudes().hasOnesOf(bits, states - 1));
        boolean wraps = Integer.bitCount(states) == 1;
        List<Integer> next =
                magnitudes().plusOne(bits, step).stream()
                        .map(b -> wraps ? b : logic().and(b, LogicGraph.not(restart)))
                        .toList();
        builder.drive(bits, next);
        return bits;
    }

    /** Bits that count so many states. */
    static int bitsFor(int states) {
        return Integer.SIZE - Integer.numberOfLeadingZeros(states - 1);
    }

    void caution(String sentence) {
        cautions.add(sentence);
    }

    /** Says that the output can show false pulses. */
    void cautionOfGlitches() {
        caution(Circuit.GLITCHES);
    }

    Circuit circuit(int output, String function, int latency, StartState start) {
        return builder.output(OUT, output)
                .build(new CircuitBuilder.About(word, function, latency, start, cautions));
    }

    /** Says so when a number is out of its range. */
    void require(String option, int number, int least, int most) throws BadInput {
        if (number < least || number > most) {
            throw fault(option, "a number from " + least + " to " + most, "" + number);
        }
    }

    /** Says so when there are too few nets, or too many. */
    void requireNets(int number, int least, int most) throws BadInput {
        if (number < least || number > most) {
            throw fault("--nets", least + " to " + most + " nets", "" + number);
        }
    }

    /** A fault in what an option or the fabric states, or does not. */
    BadInput fault(String place, String expected, String found) {
        return new BadInput(word, place, expected, found);
    }

    /** Says which number means which net: “0 a, 1 b”. */
    static String numbered(List<String> names) {
        return IntStream.range(0, names.size())
                .mapToObj(i -> i + " " + names.get(i))
                .collect(Collectors.joining(", "));
    }

    /** Several names, “a, b and c”; of many the first and the last. */
    static String listed(List<String> names) {
        int count = names.size();
        return count > 6
                ? names.get(0) + " … " + names.get(count - 1) + " (" + count + " nets)"
                : Listing.all(names);
    }

    static String cycles(int count) {
        return count == 1 ? "1 cycle" : count + " cycles";
    }
}
