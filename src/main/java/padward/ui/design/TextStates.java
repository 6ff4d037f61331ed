package padward.ui.design;

/**
 * How far a text with wildcards has been found in a name that is read character by character: a bit
 * for each number of the text's characters that the end of what was read can stand for. One step
 * takes a few instructions, whatever the text. Characters beyond 16 bits count as two. Of a text of
 * more than 62 characters besides stars, only so many are sought.
 *
 * <p>The bits: Baeza-Yates and Gonnet, "A new approach to text searching", Communications of the
 * ACM 35(10), 1992, 74-82.
 */
final class TextStates {
    private static final int MOST = 62;
    private static final int ASCII = 128;

    private final String wanted;
    private final long[] fittingByAscii = new long[ASCII];
    private final long any;
    private final long staying;
    private final long found;
    private final boolean whole;

    private TextStates(String wanted, boolean whole, long any, long staying) {
        this.wanted = wanted;
        this.whole = whole;
        this.any = any;
        this.staying = staying;
        this.found = 1L << wanted.length();
        for (char c = 0; c < ASCII; c++) {
            fittingByAscii[c] = fittingOneByOne(c);
        }
    }

    /**
     * What finds a text anywhere in a name, or at its beginning.
     *
     * @param text {@code *} stands for any characters, {@code ?} for one
     */
    static TextStates of(String text, boolean atBeginning) {
        StringBuilder wanted = new StringBuilder();
        long any = 0;
        long staying = atBeginning ? 0 : 1;
        int next = 0;
        for (; next < text.length() && wanted.length() < MOST; next++) {
            char c = text.charAt(next);
            if (c == '*') {
                staying |= 1L << wanted.length();
            } else {
                any |= c == '?' ? 1L << wanted.length() : 0;
                wanted.append(c);
            }
        }
        return new TextStates(
                wanted.toString(), next == text.length(), any, staying | 1L << wanted.length());
    }

    /** Whether the whole text is sought; otherwise only its first characters are. */
    boolean isWhole() {
        return whole;
    }

    private long fittingOneByOne(char c) {
        long result = any;
        for (int i = 0; i < wanted.length(); i++) {
            result |= wanted.charAt(i) == c ? 1L << i : 0;
        }
        return result;
    }

    /** Before the first character of a name. */
    long start() {
        return 1;
    }

    /** After one more character. */
    long next(long states, char c) {
        long fitting = c < ASCII ? fittingByAscii[c] : fittingOneByOne(c);
        return (states & fitting) << 1 | states & staying;
    }

    /** Whether what is sought was found. */
    boolean isFound(long states) {
        return (states & found) != 0;
    }

    /** Whether what follows makes no difference: found, or impossible. */
    boolean isDecided(long states) {
        return states == 0 || isFound(states);
    }

    /**
     * The same without states that can do no more than another of them: those before the last star
     * that was reached, which can stand for all that they could still read.
     */
    long least(long states) {
        long last = Long.highestOneBit(states & staying);
        return last == 0 ? states : states & -last;
    }
}
