package padward.ui.question;

import java.math.BigDecimal;

/** Supplies as the window writes them and the user types them. */
final class Volts {
    private static final int MILLI = 3;

    private Volts() {}

    /** With one decimal, and more only where they count: 3.3 V, 1.35 V. */
    static String text(long millivolts) {
        BigDecimal volts = BigDecimal.valueOf(millivolts, MILLI).stripTrailingZeros();
        return volts.setScale(Math.max(1, volts.scale())).toPlainString() + " V";
    }
}
