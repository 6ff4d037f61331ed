package padward.format.form;

import com.google.gson.FormattingStyle;
import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;

/** Writes records as JSON by their forms. */
public final class JsonText {
    private JsonText() {}

    /** In lines, for people and programs. */
    public static <R> String pretty(Kind<R> form, R record) {
        return text(form, record, FormattingStyle.PRETTY);
    }

    /** In one line, for programs that read line by line. */
    public static <R> String line(Kind<R> form, R record) {
        return text(form, record, FormattingStyle.COMPACT);
    }

    private static <R> String text(Kind<R> form, R record, FormattingStyle style) {
        StringWriter text = new StringWriter();
        try {
            JsonWriter out = new JsonWriter(text);
            out.setFormattingStyle(style);
            out.setHtmlSafe(false);
            form.write(out, record);
            out.flush();
        } catch (IOException impossible) {
            throw new UncheckedIOException("the text is in memory", impossible);
        }
        return text.toString();
    }
}
