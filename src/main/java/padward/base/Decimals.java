package padward.base;

import java.math.BigDecimal;
import java.util.Optional;

/** Decimal numbers from files, bounded so that each step of arithmetic on them is short. */
public final class Decimals {
    /** Longer numbers are none that a file states, and take long to convert. */
    private static final int DIGITS = 60;

    private Decimals() {}

    /** A number; empty for a text that is none, or has too many digits or too great an exponent. */
    public static Optional<BigDecimal> parse(String text) {
        String number = text.strip();
        if (number.length() > 2 * DIGITS) {
            return Optional.empty();
        }
        try {
            BigDecimal value = new BigDecimal(number);
            boolean bounded =
                    value.precision() <= DIGITS && Math.abs((long) value.scale()) <= DIGITS;
            return bounded ? Optional.of(value) : Optional.empty();
        } catch (NumberFormatException wrong) {
            return Optional.empty();
        }
    }
}
