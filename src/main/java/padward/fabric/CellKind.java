package padward.fabric;

import java.util.List;
import java.util.Optional;

/**
 * A kind of cell that sites accept.
 *
 * @param name name used by sites and cells
 * @param holdsState whether the cell is a register or memory: a signal ends there for timing
 * @param lookupTable its function, where the fabric says that it is a lookup table
 * @param register its function, where the fabric says that it is a register
 * @param doubleRate its function, where the fabric says that it is a register of both edges
 */
public record CellKind(
        String name,
        boolean holdsState,
        Optional<CellFunction.LookupTable> lookupTable,
        Optional<CellFunction.Register> register,
        Optional<DoubleRateRegister> doubleRate) {
    /** One whose function is not known. */
    public CellKind(String name, boolean holdsState) {
        this(name, holdsState, Optional.empty(), Optional.empty(), Optional.empty());
    }

    /** A lookup table. */
    public static CellKind lookupTable(String name, CellFunction.LookupTable function) {
        return new CellKind(name, false, Optional.of(function), Optional.empty(), Optional.empty());
    }

    /** A register. */
    public static CellKind register(String name, CellFunction.Register function) {
        return new CellKind(name, true, Optional.empty(), Optional.of(function), Optional.empty());
    }

    /** What it does with levels, cycle by cycle, where the fabric states it. */
    public Optional<CellFunction> function() {
        return lookupTable.<CellFunction>map(f -> f).or(() -> register);
    }

    /** The pins that it uses, where the fabric states its function. */
    public List<String> usedPins() {
        return function()
                .map(CellFunction::pins)
                .or(() -> doubleRate.map(DoubleRateRegister::pins))
                .orElse(List.of());
    }
}
