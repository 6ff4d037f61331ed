package padward.watch.logic;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitElement;
import padward.watch.circuit.Signal;
import padward.watch.circuit.StartState;

/**
 * Puts a circuit together: logic between nets, pads and registers, which is mapped to tables of k
 * inputs in the end. Registers that no output needs are left out, and equal tables are one.
 */
public final class CircuitBuilder {
    private final LogicGraph graph = new LogicGraph();
    private final ManyInputFunctions many;
    private final int tableInputs;
    private final Map<Signal, Integer> literalOfSignal = new LinkedHashMap<>();
    private final Map<Integer, Signal> signalOfLiteral = new HashMap<>();
    private final Map<Integer, Flip> registers = new LinkedHashMap<>();
    private final Map<String, Integer> outputs = new LinkedHashMap<>();

    /** A register while its data may not be known yet. */
    private static final class Flip {
        private final String name;
        private final String clock;
        private final Optional<Boolean> initial;
        private Optional<Integer> data = Optional.empty();

        Flip(String name, String clock, Optional<Boolean> initial) {
            this.name = name;
            this.clock = clock;
            this.initial = initial;
        }

        int data() {
            return data.orElseThrow(() -> new IllegalStateException(name + " is not driven"));
        }
    }

    /**
     * For tables of some size.
     *
     * @param tableInputs inputs of a lookup table, 2 to 8
     */
    public CircuitBuilder(int tableInputs) {
        this.tableInputs = tableInputs;
        this.many = new ManyInputFunctions(graph, tableInputs);
    }

    /** The logic, to add to it. */
    public LogicGraph logic() {
        return graph;
    }

    /** Functions of many literals. */
    public ManyInputFunctions many() {
        return many;
    }

    /** Numbers of several literals. */
    public Magnitudes magnitudes() {
        return new Magnitudes(graph, many, tableInputs);
    }

    /** The literal of a net of the design. */
    public int net(String name) {
        return signal(new Signal.Observed(name));
    }

    /** The literal of something outside of the circuit. */
    public int signal(Signal signal) {
        if (signal instanceof Signal.Made) {
            throw new IllegalArgumentException(signal + " is inside of the circuit");
        }
        return literalOfSignal.computeIfAbsent(
                signal,
                s -> {
                    int literal = graph.input();
                    signalOfLiteral.put(literal, s);
                    return literal;
                });
    }

    /** A register; its output, as a literal. */
    public int register(String name, String clock, Optional<Boolean> initial) {
        int literal = graph.input();
        registers.put(literal, new Flip(name, clock, initial));
        return literal;
    }

    /** Several registers, whatever their initial values are, the lowest first. */
    public List<Integer> registers(String name, int count, String clock) {
        List<Integer> all = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            all.add(register(name + "[" + i + "]", clock, Optional.empty()));
        }
        return all;
    }

    /** A register with its data. */
    public int registered(String name, String clock, int data) {
        int literal = register(name, clock, Optional.empty());
        drive(literal, data);
        return literal;
    }

    /** Gives several registers their data, each its own. */
    public void drive(List<Integer> some, List<Integer> data) {
        for (int i = 0; i < some.size(); i++) {
            drive(some.get(i), data.get(i));
        }
    }

    /** Gives a register its data. */
    public void drive(int register, int data) {
        registers.get(register).data = Optional.of(data);
    }

    /** Names a literal that leaves the circuit; the first is the output that was asked for. */
    public CircuitBuilder output(String name, int literal) {
        outputs.put(name, literal);
        return this;
    }

    /** What a circuit says of itself. */
    public record About(
            String name, String function, int latency, StartState start, List<String> cautions) {
        /** Copies the list. */
        public About {
            cautions = List.copyOf(cautions);
        }
    }

    /** The circuit. */
    public Circuit build(About about) {
        Set<Integer> needed = neededRegisters();
        List<Integer> roots = new ArrayList<>(outputs.values());
        needed.forEach(register -> roots.add(registers.get(register).data()));
        TableMapper.Cover cover = TableMapper.cover(graph, tableInputs, roots);
        Map<Integer, Signal> inputs = new HashMap<>(signalOfLiteral);
        int number = cover.tables().size();
        for (int register : needed) {
            inputs.put(register, new Signal.Made(number++));
        }
        List<CircuitElement> elements = new ArrayList<>();
        for (TableMapper.Table table : cover.tables()) {
            String name = "table[" + elements.size() + "]";
            List<Signal> read = table.inputs().stream().map(s -> signal(s, inputs)).toList();
            elements.add(new CircuitElement.Table(name, read, table.function()));
        }
        int root = outputs.size();
        for (int register : needed) {
            Flip flip = registers.get(register);
            Signal data = signal(cover.roots().get(root++), inputs);
            elements.add(new CircuitElement.Register(flip.name, data, flip.clock, flip.initial));
        }
        List<Circuit.Output> leaving = new ArrayList<>();
        for (String name : outputs.keySet()) {
            Signal signal = signal(cover.roots().get(leaving.size()), inputs);
            leaving.add(new Circuit.Output(name, signal));
        }
        return new Circuit(
                about.name(),
                about.function(),
                elements,
                leaving,
                about.latency(),
                about.start(),
                about.cautions());
    }

    private static Signal signal(TableMapper.Source source, Map<Integer, Signal> inputs) {
        return source.isTable() ? new Signal.Made(source.number()) : inputs.get(source.number());
    }

    /** The registers on which outputs depend, directly or through others, in their order. */
    private Set<Integer> neededRegisters() {
        Set<Integer> needed = new LinkedHashSet<>();
        List<Integer> open = new ArrayList<>(outputs.values());
        while (!open.isEmpty()) {
            int literal = open.remove(open.size() - 1);
            for (int node : graph.support(literal, Integer.MAX_VALUE - 1)) {
                if (registers.containsKey(2 * node) && needed.add(2 * node)) {
                    open.add(registers.get(2 * node).data());
                }
            }
        }
        List<Integer> all = new ArrayList<>(registers.keySet());
        all.retainAll(needed);
        return new LinkedHashSet<>(all);
    }
}
