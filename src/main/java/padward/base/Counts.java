package padward.base;

import java.util.Locale;

/** Counts as Padward shows them, the same in every locale. */
public final class Counts {
    private Counts() {}

    /** A count with a comma after the thousands. */
    public static String text(long count) {
        return String.format(Locale.ROOT, "%,d", count);
    }

    /** A count of what takes an "s" where it is not one: {@code 1 wire}, {@code 1,024 wires}. */
    public static String text(long count, String one) {
        return text(count, one, one + "s");
    }

    /** A count of what has another word where it is not one: {@code 0 switches}. */
    public static String text(long count, String one, String several) {
        return text(count) + " " + (count == 1 ? one : several);
    }
}
