package padward.handover;

import com.google.gson.Gson;
import com.google.gson.GsonBuilder;

/** Quotes texts for other languages, by the standards of those languages. */
final class Quoting {
    private static final Gson GSON = new GsonBuilder().disableHtmlEscaping().create();

    private Quoting() {}

    /** A JSON string with its quotes, RFC 8259. */
    static String json(String text) {
        return GSON.toJson(text);
    }

    /** One word for a shell: single quotes as in IEEE 1003.1, 2.2.2. */
    static String shell(String text) {
        return "'" + text.replace("'", "'\\''") + "'";
    }

    /** One field of a table, RFC 4180, always in quotes. */
    static String csv(String text) {
        return '"' + text.replace("\"", "\"\"") + '"';
    }
}
