package padward.format.design;

import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import padward.base.BadInput;
import padward.design.Attachment;
import padward.design.Board;
import padward.design.Header;
import padward.design.PadWiring;
import padward.fabric.Fabric;
import padward.format.json.EnumWords;
import padward.format.json.FileHeader;
import padward.format.json.JsonOut;

/** Writes boards. */
public final class BoardWriter {
    private BoardWriter() {}

    /**
     * Writes a file, compressed when its name ends in {@code .gz}.
     *
     * @param fabric the fabric whose pads the board's wirings count
     * @throws BadInput when it cannot be written
     */
    public static void write(Board board, Fabric fabric, Path file) throws BadInput {
        JsonOut.write(
                file,
                out -> {
                    out.beginObject();
                    out.name("format").value(FileHeader.BOARD).name("name").value(board.name());
                    JsonOut.optional(out, "note", board.note());
                    out.name("pads").beginArray();
                    for (PadWiring wiring : board.wirings()) {
                        out.beginObject();
                        out.name("pad").value(fabric.pads().get(wiring.pad()).name());
                        JsonOut.optional(out, "net", wiring.net());
                        out.name("trace_mm").value(wiring.traceMillimetres());
                        if (wiring.loadPf() > 0) {
                            out.name("load_pf").value(wiring.loadPf());
                        }
                        out.name("attached").beginArray();
                        for (Attachment attached : wiring.attachments()) {
                            out.beginObject().name("kind").value(EnumWords.of(attached.kind()));
                            out.name("name").value(attached.name());
                            JsonOut.optional(out, "pin", attached.pin());
                            known(out, "millivolts", attached.levels().millivolts());
                            known(out, "most_mv", attached.levels().mostMillivolts());
                            known(out, "series_ohms", attached.levels().seriesOhms());
                            out.endObject();
                        }
                        out.endArray().endObject();
                    }
                    out.endArray();
                    if (!board.headers().isEmpty()) {
                        writeHeaders(board.headers(), out);
                    }
                    out.endObject();
                });
    }

    private static void known(JsonWriter out, String name, int value) throws IOException {
        if (value > 0) {
            out.name(name).value(value);
        }
    }

    private static void writeHeaders(List<Header> headers, JsonWriter out) throws IOException {
        out.name("headers").beginArray();
        for (Header header : headers) {
            out.beginObject().name("name").value(header.name());
            out.name("pins").value(header.pins()).name("rows").value(header.rows());
            out.name("numbering").value(EnumWords.of(header.numbering()));
            out.name("seen").value(EnumWords.of(header.seen()));
            if (!header.grounds().isEmpty()) {
                out.name("grounds").beginArray();
                for (String ground : header.grounds()) {
                    out.value(ground);
                }
                out.endArray();
            }
            out.endObject();
        }
        out.endArray();
    }
}
