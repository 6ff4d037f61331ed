package padward.base;

import java.util.Locale;

/** Counts as Padward shows them, the same in every locale. */
public final class Counts {
    private Counts() {}

    /** A count with a comma after the thousands. */
    public static String text(long count) {
        return String.format(Locale.ROOT, "%,d", count);
    }
}
