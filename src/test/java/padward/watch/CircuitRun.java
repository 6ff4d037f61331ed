package padward.watch;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.Element;
import padward.watch.circuit.Signal;

/** A circuit in plain code, clock cycle by clock cycle. */
public final class CircuitRun {
    private final Circuit circuit;
    private final boolean[] state;
    private Predicate<String> levels = net -> false;
    private final Map<Integer, Boolean> values = new HashMap<>();

    /** Registers begin with the values given for their elements' numbers. */
    public CircuitRun(Circuit circuit, Predicate<Integer> initial) {
        this.circuit = circuit;
        this.state = new boolean[circuit.elements().size()];
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
        values.clear();
        return value(circuit.outputs().get(number).signal());
    }

    /** The clock's edge at the end of that cycle. */
    public void edge() {
        boolean[] next = state.clone();
        List<Element> elements = circuit.elements();
        for (int i = 0; i < next.length; i++) {
            if (elements.get(i) instanceof Element.Register register) {
                next[i] = value(register.data());
            }
        }
        System.arraycopy(next, 0, state, 0, next.length);
        values.clear();
    }

    private boolean value(Signal signal) {
        if (signal instanceof Signal.Observed net) {
            return levels.test(net.net());
        }
        if (signal instanceof Signal.AtPad pad) {
            return levels.test(pad.pad());
        }
        int element = ((Signal.Made) signal).element();
        Boolean known = values.get(element);
        if (known == null) {
            known =
                    circuit.elements().get(element) instanceof Element.Table table
                            ? value(table)
                            : state[element];
            values.put(element, known);
        }
        return known;
    }

    private boolean value(Element.Table table) {
        int row = 0;
        for (int i = 0; i < table.inputs().size(); i++) {
            row |= value(table.inputs().get(i)) ? 1 << i : 0;
        }
        return table.function().value(row);
    }
}
