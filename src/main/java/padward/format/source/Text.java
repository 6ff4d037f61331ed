package padward.format.source;

/** Quotes a text from a file, short enough for a message. */
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
}
