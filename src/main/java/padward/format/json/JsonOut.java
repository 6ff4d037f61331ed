package padward.format.json;

import com.google.gson.FormattingStyle;
import com.google.gson.stream.JsonWriter;
import java.io.BufferedWriter;
import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.zip.GZIPOutputStream;
import padward.base.BadInput;
import padward.base.WholeFile;

/** Writes JSON so that a reader finds either the old file or the whole new one. */
public final class JsonOut {
    /** What is written. */
    public interface Body {
        /** Writes it. */
        public void write(JsonWriter out) throws IOException;
    }

    private JsonOut() {}

    /**
     * Writes a file as a whole or not at all, compressed when its name ends in {@code .gz}.
     *
     * @throws BadInput when that cannot be done; the old file is then unchanged
     */
    public static void write(Path file, Body body) throws BadInput {
        boolean zipped = file.toString().endsWith(".gz");
        WholeFile.write(
                file,
                raw -> {
                    if (zipped) {
                        try (OutputStream bytes = new GZIPOutputStream(raw, 1 << 16)) {
                            write(bytes, FormattingStyle.COMPACT, body);
                        }
                    } else {
                        // People read the plain files, so these are spread over lines.
                        write(raw, FormattingStyle.PRETTY.withIndent(" "), body);
                    }
                });
    }

    /** Writes JSON to a stream, in UTF-8. */
    public static void write(OutputStream bytes, FormattingStyle style, Body body)
            throws IOException {
        Writer text = new BufferedWriter(new OutputStreamWriter(bytes, StandardCharsets.UTF_8));
        JsonWriter out = new JsonWriter(text);
        out.setFormattingStyle(style);
        out.setHtmlSafe(false);
        body.write(out);
        out.flush();
    }
}
