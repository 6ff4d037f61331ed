package padward.watch.own;

import java.util.LinkedHashMap;
import java.util.Map;
import padward.base.BadInput;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.Signal;

/**
 * A netlist with what its input ports are on a design.
 *
 * @param logic the netlist
 * @param signals by name of a port that cells read, what it is
 * @param clocks by name of a port that clocks registers, the clock's net
 */
public record Bound(NetlistLogic logic, Map<String, Signal> signals, Map<String, String> clocks) {
    /** Copies the maps. */
    public Bound {
        signals = new LinkedHashMap<>(signals);
        clocks = new LinkedHashMap<>(clocks);
    }

    /**
     * The circuit.
     *
     * @param tableInputs most inputs of a lookup table on the fabric
     * @throws BadInput when tables of that size cannot do what a register's enable and reset do
     */
    public Circuit circuit(int tableInputs) throws BadInput {
        return OwnCircuit.of(this, tableInputs);
    }
}
