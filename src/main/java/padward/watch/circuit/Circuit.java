package padward.watch.circuit;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import padward.base.Listing;

/**
 * A small circuit between nets of a design and pads: lookup tables and registers, not yet placed.
 * It is made for tables of a certain number of inputs, and knows nothing of any design.
 *
 * @param name what sort of circuit it is, one word: {@code trigger}
 * @param function what it does, as a sentence
 * @param elements its lookup tables and registers; signals name them by their place here
 * @param outputs what leaves the circuit; the first is the one that was asked for
 * @param latency clock cycles from the observed nets to the first output; 0 when no register lies
 *     between
 * @param start from which state it works
 * @param cautions what whoever reads the output should know, each as a sentence
 */
public record Circuit(
        String name,
        String function,
        List<CircuitElement> elements,
        List<Output> outputs,
        int latency,
        StartState start,
        List<String> cautions) {
    /** The caution about an output without a register. */
    public static final String GLITCHES =
            "No register stands before the output: while several nets change, it can show short"
                    + " pulses that mean nothing.";

    /** Copies the lists. */
    public Circuit {
        elements = List.copyOf(elements);
        outputs = List.copyOf(outputs);
        cautions = List.copyOf(cautions);
        requireSound(elements, outputs);
    }

    /**
     * A signal that leaves the circuit for a pad.
     *
     * @param name one word: {@code out}, {@code marker}
     * @param signal the signal
     */
    public record Output(String name, Signal signal) {}

    private static void requireSound(List<CircuitElement> elements, List<Output> outputs) {
        if (outputs.isEmpty()) {
            throw new IllegalArgumentException("a circuit without an output");
        }
        Set<String> names = new HashSet<>();
        Stream.concat(
                        elements.stream().flatMap(e -> e.inputs().stream()),
                        outputs.stream().map(Output::signal))
                .forEach(
                        signal -> {
                            if (signal instanceof Signal.Made made
                                    && (made.element() < 0 || made.element() >= elements.size())) {
                                throw new IllegalArgumentException("no element for " + made);
                            }
                        });
        for (CircuitElement element : elements) {
            if (!names.add(element.name())) {
                throw new IllegalArgumentException("two elements " + element.name());
            }
        }
    }

    /** The signal that was asked for. */
    public Signal output() {
        return outputs.get(0).signal();
    }

    /** The names of its outputs, {@code out and marker}. */
    public String outputNames() {
        return Listing.all(outputs.stream().map(Output::name).toList());
    }

    /** All signals that elements and outputs read; each once. */
    public Stream<Signal> signals() {
        return Stream.concat(
                        elements.stream().flatMap(e -> e.inputs().stream()),
                        outputs.stream().map(Output::signal))
                .distinct();
    }

    /** Names of the nets of the design that it observes, clocks apart; sorted. */
    public Set<String> observedNets() {
        return signals()
                .filter(Signal.Observed.class::isInstance)
                .map(signal -> ((Signal.Observed) signal).net())
                .collect(Collectors.toCollection(TreeSet::new));
    }

    /** Names of the nets that clock its registers; sorted. */
    public Set<String> clocks() {
        return elements.stream()
                .filter(CircuitElement.Register.class::isInstance)
                .map(element -> ((CircuitElement.Register) element).clock())
                .collect(Collectors.toCollection(TreeSet::new));
    }
}
