package padward.watch.library;

import padward.base.BadInput;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitKinds;
import padward.watch.own.Bound;

/**
 * A netlist of the user's own.
 *
 * @param bound the netlist with what its inputs are
 */
public record Own(Bound bound) implements Recipe {
    @Override
    public Circuit circuit(CircuitKinds kinds) throws BadInput {
        return bound.circuit(kinds.tableInputs());
    }
}
