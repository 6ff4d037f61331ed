package padward.format.source;

/** What holds for texts from files of all kinds: which are names, and how a message quotes them. */
public final class Text {
    private static final int LONGEST = 80;

    /** The first character behind those of ASCII that are printed. */
    private static final char DELETE = 0x7f;

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
        int i = 0;
        while (i < text.length()) {
            char c = text.charAt(i);
            if (c >= ' ' && c < DELETE) {
                i++;
                continue;
            }
            int point = Character.codePointAt(text, i);
            if (Character.isISOControl(point) || Character.getType(point) == Character.SURROGATE) {
                return false;
            }
            i += Character.charCount(point);
        }
        return true;
    }
}
