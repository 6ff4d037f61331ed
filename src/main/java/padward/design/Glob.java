package padward.design;

/**
 * A name with wildcards: {@code *} stands for any characters, {@code ?} for one; all else, brackets
 * included, for itself. Case counts.
 */
public final class Glob {
    private final String text;

    private Glob(String text) {
        this.text = text;
    }

    /** The pattern that a text means. */
    public static Glob of(String text) {
        return new Glob(text);
    }

    /**
     * Whether the whole name fits. O(length of the pattern × length of the name): where a character
     * does not fit, only the last star can have stood for more, as those before it have matched as
     * early as they can.
     */
    public boolean matches(String name) {
        int at = 0;
        int inName = 0;
        int afterStar = -1;
        int starUpTo = 0;
        while (inName < name.length()) {
            char wanted = at < text.length() ? text.charAt(at) : 0;
            boolean ended = at == text.length();
            if (!ended && wanted == '*') {
                at++;
                afterStar = at;
                starUpTo = inName;
            } else if (!ended && wanted == '?') {
                at++;
                inName += Character.charCount(name.codePointAt(inName));
            } else if (!ended && wanted == name.charAt(inName)) {
                at++;
                inName++;
            } else if (afterStar >= 0) {
                starUpTo++;
                at = afterStar;
                inName = starUpTo;
            } else {
                return false;
            }
        }
        while (at < text.length() && text.charAt(at) == '*') {
            at++;
        }
        return at == text.length();
    }

    /** The text it was made from. */
    @Override
    public String toString() {
        return text;
    }
}
