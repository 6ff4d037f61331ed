package padward.base;

/** Texts in pages. */
public final class Html {
    private Html() {}

    /** A text as it stands in a page, with what would be read as a tag spelled out. */
    public static String escaped(String text) {
        return text.replace("&", "&amp;")
                .replace("<", "&lt;")
                .replace(">", "&gt;")
                .replace("\"", "&quot;");
    }
}
