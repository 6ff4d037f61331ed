package padward.watch.own;

import java.math.BigInteger;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import padward.fabric.CellFunction;
import padward.watch.circuit.CellSpelling;
import padward.watch.circuit.TruthTable;

/**
 * The contents of lookup tables as netlists state them: as the kind of cell spells them, or as a
 * number of Verilog with its base (IEEE 1364-2005, 3.5.1), {@code 16'h8000}.
 */
final class ContentsText {
    private static final Pattern BASED =
            Pattern.compile("(\\d*) *'s?([bodh]) *([0-9a-f_]+)", Pattern.CASE_INSENSITIVE);

    private static final Map<String, Integer> RADIX = Map.of("b", 2, "o", 8, "d", 10, "h", 16);

    private ContentsText() {}

    /** What the settings of a cell state; empty when they state nothing that can be read. */
    static Optional<TruthTable> read(Map<String, String> settings, CellFunction.LookupTable kind) {
        String text = settings.getOrDefault(kind.setting(), "");
        Matcher based = BASED.matcher(text);
        if (!based.matches()) {
            return CellSpelling.contents(settings, kind);
        }
        int inputs = kind.inputs().size();
        return number(based, 1 << inputs).map(n -> TruthTable.of(inputs, n::testBit));
    }

    private static Optional<BigInteger> number(Matcher based, int rows) {
        String base = based.group(2).toLowerCase(Locale.ROOT);
        try {
            BigInteger number =
                    new BigInteger(based.group(3).replace("_", ""), RADIX.get(base).intValue());
            boolean wide = !based.group(1).isEmpty() && number.bitLength() > width(based.group(1));
            return number.bitLength() > rows || wide ? Optional.empty() : Optional.of(number);
        } catch (NumberFormatException e) {
            return Optional.empty();
        }
    }

    private static int width(String digits) {
        return digits.length() > 4 ? Integer.MAX_VALUE : Integer.parseInt(digits);
    }

    /** The level that a register's setting states; empty when it states none. */
    static Optional<Boolean> level(String text) {
        return switch (text.toLowerCase(Locale.ROOT)) {
            case "0", "1'b0", "1'h0" -> Optional.of(false);
            case "1", "1'b1", "1'h1" -> Optional.of(true);
            default -> Optional.empty();
        };
    }
}
