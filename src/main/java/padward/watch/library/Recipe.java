package padward.watch.library;

import padward.base.BadInput;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitKinds;

/** What makes a circuit: one sort of the library, with its nets and numbers. */
public sealed interface Recipe
        permits AnyChange,
                Count,
                Divide,
                Own,
                Parity,
                Registered,
                Select,
                Signature,
                Sticky,
                Stretch,
                Synchronised,
                Toggle,
                Trigger {
    /**
     * The circuit, for the kinds of cell of a fabric.
     *
     * @throws BadInput when a number is out of its range, or the kinds cannot do it
     */
    Circuit circuit(CircuitKinds kinds) throws BadInput;
}
