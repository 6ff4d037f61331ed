package padward.ui.play;

import java.util.Locale;

/** Counts as the window shows them, the same in every locale. */
final class Counts {
    private Counts() {}

    /** A count with a comma after the thousands. */
    static String text(long count) {
        return String.format(Locale.ROOT, "%,d", count);
    }
}
