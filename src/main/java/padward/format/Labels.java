package padward.format;

import java.util.Locale;

/** The words that files use for enumerated values. */
public final class Labels {
    private Labels() {}

    /** The constant's name in lower case. */
    public static String of(Enum<?> value) {
        return value.name().toLowerCase(Locale.ROOT);
    }
}
