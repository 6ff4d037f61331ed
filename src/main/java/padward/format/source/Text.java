package padward.format.source;

/** What holds for texts from files of all kinds: which are names, and how a message quotes them. */
public final class Text {
    private static final int LONGEST = 80;

    private Text() {}

    /** In double quotes, control characters shown as dots, the rest of a long text left out. */
    public static String quote(String text) {
        String start = text.length() > LONGEST ? text.substring(0, LONGEST) + "…" : text;
        StringBuilder shown = new StringBuilder(start.length() + 2).append('"');
        start.chars().forEach(c -> shown.append(Character.isISOControl(c) ? '.' : (char) c));
        return shown.append('"').toString();
    }

    /** Whether all characters are printable: no control characters, no half of a pair alone. */
    public static boolean isPrintable(CharSequence text) {
        return text.codePoints()
                .noneMatch(
                        c ->
                                Character.isISOControl(c)
                                        || Character.getType(c) == Character.SURROGATE);
    }
}
