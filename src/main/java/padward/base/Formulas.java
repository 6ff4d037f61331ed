package padward.base;

import java.util.regex.Pattern;

/**
 * Texts in tables that people open in a spreadsheet, which takes a field that begins with =, +, -
 * or @ for a formula. An apostrophe in front keeps it a text; numbers stay as they are.
 */
public final class Formulas {
    /** Apostrophes in front count, so that each field stands for one text. */
    private static final Pattern FORMULA = Pattern.compile("'*[=+\\-@\\t\\r].*", Pattern.DOTALL);

    private static final Pattern NUMBER = Pattern.compile("[+-]?\\d+(\\.\\d+)?");

    private Formulas() {}

    /** A value as a field that no spreadsheet calculates. */
    public static String guard(Object value) {
        String text = String.valueOf(value);
        boolean formula = FORMULA.matcher(text).matches() && !NUMBER.matcher(text).matches();
        return formula ? "'" + text : text;
    }

    /** The text that a field stands for. */
    public static String unguard(String field) {
        boolean guarded = field.startsWith("'") && FORMULA.matcher(field).matches();
        return guarded ? field.substring(1) : field;
    }
}
