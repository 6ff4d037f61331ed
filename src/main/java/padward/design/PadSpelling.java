package padward.design;

import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;

/**
 * The spellings of pads that messages, schematics and people use: {@code header J1 pin 3}, {@code
 * J1-3}, {@code J1:3}, {@code pin D7 (MOTOR)}, {@code board net MOTOR}. All are brought to one form
 * and compared.
 */
final class PadSpelling {
    private static final Pattern REMARK = Pattern.compile("\\s*\\([^()]*\\)$");
    private static final Pattern SORT =
            Pattern.compile(
                    "^(?:header|connector|test ?point|package pin|pin|ball|pad|port|board net)"
                            + "\\s+");
    private static final Pattern BETWEEN = Pattern.compile("\\s+pin\\s+|\\s*[-.:/]\\s*|\\s+");

    private PadSpelling() {}

    /** The one form of a text. */
    static String plain(String text) {
        String lower = text.strip().toLowerCase(Locale.ROOT);
        String name = SORT.matcher(REMARK.matcher(lower).replaceFirst("")).replaceFirst("");
        return BETWEEN.matcher(name).replaceAll(".");
    }

    /** Whether one of a pad's names means the same as a text in its one form. */
    static boolean fits(List<String> names, String plain) {
        return names.stream().anyMatch(n -> plain(n).equals(plain));
    }
}
