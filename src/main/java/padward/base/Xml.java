package padward.base;

/** Texts in XML and in HTML pages. */
public final class Xml {
    private Xml() {}

    /** A text for a page, with the characters of tags escaped. */
    public static String escaped(String text) {
        return text.replace("&", "&amp;")
                .replace("<", "&lt;")
                .replace(">", "&gt;")
                .replace("\"", "&quot;");
    }

    /**
     * A page with only legal characters: each that is no Char of XML 1.0 (production 2) becomes the
     * replacement character.
     */
    public static String legal(String page) {
        StringBuilder legal = new StringBuilder(page.length());
        page.codePoints().forEach(c -> legal.appendCodePoint(isLegal(c) ? c : 0xFFFD));
        return legal.toString();
    }

    private static boolean isLegal(int c) {
        return c == '\t'
                || c == '\n'
                || c == '\r'
                || c >= 0x20 && c <= 0xD7FF
                || c >= 0xE000 && c <= 0xFFFD
                || c >= 0x10000;
    }
}
