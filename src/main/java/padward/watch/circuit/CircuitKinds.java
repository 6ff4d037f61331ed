package padward.watch.circuit;

import java.util.Comparator;
import java.util.Optional;
import padward.base.BadInput;
import padward.fabric.CellFunction;
import padward.fabric.CellKind;
import padward.fabric.FabricInfo;

/**
 * The kinds of cell of which circuits are made on a fabric.
 *
 * @param table the kind of its lookup tables
 * @param register the kind of its registers, if it has any
 */
public record CircuitKinds(CellKind table, Optional<CellKind> register) {
    /**
     * Those of a fabric: the lookup table with the most inputs, and a register whose initial value
     * is known, if there is one.
     *
     * @throws BadInput when the fabric states no lookup table of two or more inputs
     */
    public static CircuitKinds of(FabricInfo fabric) throws BadInput {
        Optional<CellKind> table =
                fabric.cellKinds().stream()
                        .filter(kind -> inputs(kind) > 1)
                        .max(Comparator.comparingInt(CircuitKinds::inputs));
        if (table.isEmpty()) {
            throw new BadInput(
                    "fabric " + fabric.name(),
                    "cellKinds",
                    "a kind of cell that states a lookupTable of two or more inputs",
                    "none");
        }
        Optional<CellKind> register =
                fabric.cellKinds().stream()
                        .filter(kind -> kind.register().isPresent())
                        .max(Comparator.comparing(CircuitKinds::startsKnown));
        return new CircuitKinds(table.get(), register);
    }

    private static int inputs(CellKind kind) {
        return kind.lookupTable().map(table -> table.inputs().size()).orElse(0);
    }

    private static boolean startsKnown(CellKind kind) {
        return kind.register().filter(CellFunction.Register::startsKnown).isPresent();
    }

    /** Inputs of a lookup table. */
    public int tableInputs() {
        return inputs(table);
    }

    /** Whether registers can be given an initial value that is low. */
    public boolean startsLow() {
        return register.flatMap(CellKind::register)
                .filter(
                        r ->
                                r.initialSetting().isPresent()
                                        || r.initial() == CellFunction.Initial.LOW)
                .isPresent();
    }
}
