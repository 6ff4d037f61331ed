package padward.watch;

import java.util.Arrays;
import java.util.List;
import java.util.function.Predicate;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitElement;
import padward.watch.circuit.Signal;

/** A circuit in plain code, clock cycle by clock cycle. */
public final class CircuitRun {
    private final Circuit circuit;
    private final boolean[] state;
    private Predicate<String> levels = net -> false;

    /** Of each element in this cycle: 0 not known yet, 1 low, 2 high. */
    private final byte[] values;

    /** Registers begin with the values given for their elements' numbers. */
    public CircuitRun(Circuit circuit, Predicate<Integer> initial) {
        this.circuit = circuit;
        this.state = new boolean[circuit.elements().size()];
        this.values = new byte[state.length];
        for (int i = 0; i < state.length; i++) {
            state[i] = initial.test(i);
        }
    }

    /** The output in a cycle in which nets (and pads) have levels. */
    public boolean output(Predicate<String> netLevels) {
        return output(netLevels, 0);
    }

    /** One of the outputs. */
    public boolean output(Predicate<String> netLevels, int number) {
        levels = netLevels;
        Arrays.fill(values, (byte) 0);
        return value(circuit.outputs().get(number).signal());
    }

    /** The clock's edge at the end of that cycle. */
    public void edge() {
        boolean[] next = state.clone();
        List<CircuitElement> elements = circuit.elements();
        for (int i = 0; i < next.length; i++) {
            if (elements.get(i) instanceof CircuitElement.Register register) {
                next[i] = value(register.data());
            }
        }
        System.arraycopy(next, 0, state, 0, next.length);
        Arrays.fill(values, (byte) 0);
    }

    private boolean value(Signal signal) {
        if (signal instanceof Signal.Observed net) {
            return levels.test(net.net());
        }
        if (signal instanceof Signal.AtPad pad) {
            return levels.test(pad.pad());
        }
        int element = ((Signal.Made) signal).element();
        if (values[element] == 0) {
            boolean value =
                    circuit.elements().get(element) instanceof CircuitElement.Table table
                            ? value(table)
                            : state[element];
            values[element] = (byte) (value ? 2 : 1);
        }
        return values[element] == 2;
    }

    private boolean value(CircuitElement.Table table) {
        int row = 0;
        for (int i = 0; i < table.inputs().size(); i++) {
            row |= value(table.inputs().get(i)) ? 1 << i : 0;
        }
        return table.function().value(row);
    }
}
