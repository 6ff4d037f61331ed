package padward.base;

import java.math.BigDecimal;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * Decimal numbers, bounded so that each step of arithmetic on them is short. Files write them with
 * a point. Where people type them, on the command line and in the window, a comma counts as a
 * point, unless it may mark thousands: {@code 0,25} is a number, {@code 1,000} is none.
 */
public final class Decimals {
    /** Longer numbers are none that a file states, and take long to convert. */
    private static final int DIGITS = 60;

    /** What is expected in place of a number whose comma may mark thousands. */
    public static final String POINT =
            "a number with a point, because the comma could mean thousands";

    private static final Pattern THOUSANDS = Pattern.compile("[-+]?[1-9]\\d{0,2}(,\\d{3})+");

    private Decimals() {}

    /** Whether a comma in a typed number may be a point as well as mark thousands. */
    public static boolean mayMeanThousands(String text) {
        return THOUSANDS.matcher(text.strip()).matches();
    }

    /** A number that was typed; empty for a text that is none, or may mean two. */
    public static Optional<BigDecimal> typed(String text) {
        return mayMeanThousands(text) ? Optional.empty() : parse(text.replace(',', '.'));
    }

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
