package padward.watch.circuit;

import java.math.BigInteger;
import java.util.Map;
import java.util.Optional;
import padward.fabric.CellFunction;
import padward.fabric.CellFunction.Digits;

/** How the settings of cells state what elements of circuits do, and back. */
public final class CellSpelling {
    private static final int HEXADECIMAL = 16;

    private CellSpelling() {}

    /**
     * The settings of a cell that is to be a lookup table. Inputs of the kind beyond those of the
     * function make no difference, so that nothing need be connected there.
     *
     * @throws IllegalArgumentException when the kind has fewer inputs than the function
     */
    public static Map<String, String> settings(
            CircuitElement.Table table, CellFunction.LookupTable kind) {
        TruthTable all = table.function();
        if (all.inputs() > kind.inputs().size()) {
            throw new IllegalArgumentException(
                    all.inputs() + " inputs in a table of " + kind.inputs().size());
        }
        while (all.inputs() < kind.inputs().size()) {
            all = all.widened();
        }
        String digits = kind.digits() == Digits.BINARY ? all.binary() : all.hexadecimal();
        return Map.of(kind.setting(), kind.prefix() + digits);
    }

    /** The settings of a cell that is to be a register; none when its start does not matter. */
    public static Map<String, String> settings(
            CircuitElement.Register register, CellFunction.Register kind) {
        return kind.initialSetting().isEmpty() || register.initial().isEmpty()
                ? Map.of()
                : Map.of(kind.initialSetting().get(), register.initial().get() ? "1" : "0");
    }

    /** The contents that the settings of a cell state; empty when they state none. */
    public static Optional<TruthTable> contents(
            Map<String, String> settings, CellFunction.LookupTable kind) {
        String text = settings.getOrDefault(kind.setting(), "");
        if (text.isEmpty() || !text.startsWith(kind.prefix())) {
            return Optional.empty();
        }
        int radix = kind.digits() == Digits.BINARY ? 2 : HEXADECIMAL;
        String digits = text.substring(kind.prefix().length());
        int rows = 1 << kind.inputs().size();
        boolean sound =
                !digits.isEmpty() && digits.chars().allMatch(c -> Character.digit(c, radix) >= 0);
        BigInteger value = sound ? new BigInteger(digits, radix) : BigInteger.ZERO;
        return sound && value.bitLength() <= rows
                ? Optional.of(TruthTable.of(kind.inputs().size(), value::testBit))
                : Optional.empty();
    }
}
