package padward.breakout.verify;

import java.util.Locale;

/** How something differs between two designs. */
public enum Difference {
    /** Only in the first. */
    GONE,
    /** In both, not alike. */
    CHANGED,
    /** Only in the second. */
    NEW;

    /** The word used in files and on screens. */
    public String label() {
        return name().toLowerCase(Locale.ROOT);
    }
}
