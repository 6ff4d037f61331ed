package padward.design;

import java.util.regex.Pattern;

/**
 * A name with wildcards: {@code *} stands for any characters, {@code ?} for one; all else, brackets
 * included, for itself. Case counts.
 */
public final class Glob {
    private final String text;
    private final Pattern pattern;

    private Glob(String text) {
        this.text = text;
        StringBuilder regex = new StringBuilder();
        for (char c : text.toCharArray()) {
            switch (c) {
                case '*' -> regex.append(".*");
                case '?' -> regex.append('.');
                default -> regex.append(Pattern.quote(String.valueOf(c)));
            }
        }
        this.pattern = Pattern.compile(regex.toString(), Pattern.DOTALL);
    }

    /** The pattern that a text means. */
    public static Glob of(String text) {
        return new Glob(text);
    }

    /** Whether the whole name fits. */
    public boolean matches(String name) {
        return pattern.matcher(name).matches();
    }

    /** The text it was made from. */
    @Override
    public String toString() {
        return text;
    }
}
