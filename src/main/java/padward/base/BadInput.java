package padward.base;

/**
 * A fault in something the user gave: a file, a name, an option. It carries the four things a
 * reader needs to correct it: the source, the place in it, what was expected there, what was found
 * there.
 *
 * <p>Programmer's mistakes are never reported this way; they are unchecked exceptions.
 */
public final class BadInput extends Exception {
    /** What a fault is about, for those who say more about it than its four texts. */
    public enum Kind {
        /** Nothing that needs more to be said. */
        PLAIN,
        /** Something that was made on another file than the one at hand. */
        OTHER_FILE,
        /** Something that is in order by itself, but does not fit what it is for. */
        DOES_NOT_FIT,
        /** A choice among several things, which the user can also state otherwise. */
        NEEDS_CHOICE
    }

    private final Kind kind;
    private final String source;
    private final String place;
    private final String expected;
    private final String found;

    /**
     * A fault about which nothing more is to be said.
     *
     * @param source the file, or the option or field of the screen the text came from
     * @param place the JSON path, line or name inside the source; empty when the whole source is
     *     meant
     * @param expected what was expected there, as a noun phrase
     * @param found what was found there; blank for nothing
     */
    public BadInput(String source, String place, String expected, String found) {
        this(Kind.PLAIN, source, place, expected, found);
    }

    /**
     * @param kind what it is about
     * @param source the file, or the option or field of the screen the text came from
     * @param place the JSON path, line or name inside the source; empty when the whole source is
     *     meant
     * @param expected what was expected there, as a noun phrase
     * @param found what was found there; blank for nothing
     */
    public BadInput(Kind kind, String source, String place, String expected, String found) {
        super(line(source, place, expected, shown(found)));
        this.kind = kind;
        this.source = source;
        this.place = place;
        this.expected = expected;
        this.found = shown(found);
    }

    /** A message that ends after "found" looks cut short. */
    private static String shown(String found) {
        return found.isBlank() ? "nothing" : found;
    }

    /**
     * The same fault; if it needs a choice, what was expected is also how to state it.
     *
     * @param means the option or field that states it, as the last part of what is expected
     */
    public BadInput orBy(String means) {
        return kind == Kind.NEEDS_CHOICE
                ? new BadInput(kind, source, place, expected + ", or " + means, found)
                : this;
    }

    private static String line(String source, String place, String expected, String found) {
        String where = place.isEmpty() ? source : source + ", at " + place;
        return where + ": expected " + expected + ", found " + found;
    }

    /** What it is about. */
    public Kind kind() {
        return kind;
    }

    /** The file or option that is at fault. */
    public String source() {
        return source;
    }

    /** The place inside the source; empty when the whole source is meant. */
    public String place() {
        return place;
    }

    /** What was expected there. */
    public String expected() {
        return expected;
    }

    /** What was found there. */
    public String found() {
        return found;
    }
}
