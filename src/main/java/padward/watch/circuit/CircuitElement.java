package padward.watch.circuit;

import java.util.List;
import java.util.Optional;

/** A part of a circuit that becomes one cell. */
public sealed interface CircuitElement {
    /** Name within the circuit, {@code count[3]}; no two elements of a circuit share one. */
    String name();

    /** All that it reads, its clock apart, in the order of its pins. */
    List<Signal> inputs();

    /**
     * A lookup table.
     *
     * @param name name within the circuit
     * @param inputs its inputs; input i is bit i of the number of a row
     * @param function its contents; has as many inputs
     */
    record Table(String name, List<Signal> inputs, TruthTable function) implements CircuitElement {
        /** Copies the list. */
        public Table {
            inputs = List.copyOf(inputs);
            if (inputs.size() != function.inputs()) {
                throw new IllegalArgumentException(
                        inputs.size() + " inputs for a function of " + function.inputs());
            }
        }
    }

    /**
     * A register that takes its data at each rising edge of its clock.
     *
     * @param name name within the circuit
     * @param data what it takes
     * @param clock name of its clock's net
     * @param initial its value at the start, where the circuit needs one
     */
    record Register(String name, Signal data, String clock, Optional<Boolean> initial)
            implements CircuitElement {
        @Override
        public List<Signal> inputs() {
            return List.of(data);
        }
    }
}
