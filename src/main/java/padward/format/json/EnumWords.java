package padward.format.json;

import java.util.Locale;

/** The words that files use for enumerated values. */
public final class EnumWords {
    private EnumWords() {}

    /** The constant's name in lower case, with hyphens between its words. */
    public static String of(Enum<?> value) {
        return value.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
