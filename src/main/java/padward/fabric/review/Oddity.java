package padward.fabric.review;

/** A kind of thing that is valid but seldom meant. */
public interface Oddity {
    /** A word by which users ask for all things of the kind. */
    String word();

    /** What the things are, in words that a count can follow. */
    String what();
}
