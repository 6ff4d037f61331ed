package padward.base;

import java.math.BigDecimal;

/** Voltages as all texts write them and users type them. */
public final class Volts {
    private static final int MILLI = 3;

    private Volts() {}

    /** With one decimal, and more only where they count: 3.3 V, 1.35 V. */
    public static String text(long millivolts) {
        return text(BigDecimal.valueOf(millivolts, MILLI));
    }

    /** Half of a voltage: 1.65 V of 3300 mV. */
    public static String half(long millivolts) {
        return text(BigDecimal.valueOf(millivolts * 5, MILLI + 1));
    }

    private static String text(BigDecimal volts) {
        BigDecimal few = volts.stripTrailingZeros();
        return few.setScale(Math.max(1, few.scale())).toPlainString() + " V";
    }
}
