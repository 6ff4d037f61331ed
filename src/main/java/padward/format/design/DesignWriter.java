package padward.format.design;

import com.google.gson.FormattingStyle;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import padward.base.BadInput;
import padward.design.Design;
import padward.format.design.DesignForm.DesignFile;
import padward.format.json.JsonOut;

/** Writes designs. */
public final class DesignWriter {
    private DesignWriter() {}

    /**
     * Writes a file, compressed when its name ends in {@code .gz}.
     *
     * @param fabricRef name of the fabric's file, relative to the design's
     * @param boardRef name of the board's file, {@code ""} for none
     * @throws BadInput when it cannot be written
     */
    public static void write(Design design, Path file, String fabricRef, String boardRef)
            throws BadInput {
        new DesignForm(design).form().write(file, new DesignFile(design, fabricRef, boardRef));
    }

    /**
     * Writes to a stream what {@link #write(Design, Path, String, String)} puts into a plain file.
     */
    static void write(Design design, OutputStream bytes, String fabricRef, String boardRef)
            throws IOException {
        DesignFile content = new DesignFile(design, fabricRef, boardRef);
        JsonOut.write(
                bytes,
                FormattingStyle.PRETTY.withIndent(" "),
                out -> new DesignForm(design).form().write(out, content));
    }
}
