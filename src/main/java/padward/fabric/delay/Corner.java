package padward.fabric.delay;

import java.util.Locale;

/** The two corners at which every delay is known: the fastest and the slowest part allowed. */
public enum Corner {
    /** Fast silicon, high voltage, cold: the least delay. */
    FAST,
    /** Slow silicon, low voltage, hot: the greatest delay. */
    SLOW;

    /** The corner's name as it is typed and printed: {@code fast} or {@code slow}. */
    public String label() {
        return name().toLowerCase(Locale.ROOT);
    }
}
