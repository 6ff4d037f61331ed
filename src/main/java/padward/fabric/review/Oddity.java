package padward.fabric.review;

import java.util.Locale;

/** A kind of thing that is valid but seldom meant. */
public interface Oddity {
    /** Its name in the code, as an enum states it. */
    String name();

    /** A word by which users ask for all things of the kind. */
    default String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** What the things are, in words that a count can follow. */
    String what();
}
