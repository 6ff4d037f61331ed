package padward.fabric.pattern;

/**
 * A pattern that says something impossible. The format layer adds the file's name and turns it into
 * the user's message.
 */
public final class PatternFault extends Exception {
    private final String place;
    private final String expected;
    private final String found;

    /**
     * @param place where in the pattern, as a JSON path
     * @param expected what should have stood there
     * @param found what stood there
     */
    public PatternFault(String place, String expected, String found) {
        super(place + ": expected " + expected + ", found " + found);
        this.place = place;
        this.expected = expected;
        this.found = found;
    }

    /** Where in the pattern. */
    public String place() {
        return place;
    }

    /** What should have stood there. */
    public String expected() {
        return expected;
    }

    /** What stood there. */
    public String found() {
        return found;
    }
}
