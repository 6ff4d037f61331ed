package padward.format.design;

import java.nio.file.Path;
import padward.base.BadInput;
import padward.design.Attachment;
import padward.design.Board;
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
                            out.endObject();
                        }
                        out.endArray().endObject();
                    }
                    out.endArray().endObject();
                });
    }
}
