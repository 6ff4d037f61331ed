package padward.format.design;

import com.google.gson.FormattingStyle;
import com.google.gson.stream.JsonWriter;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import java.util.Map;
import java.util.OptionalInt;
import java.util.TreeMap;
import padward.base.BadInput;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Port;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.format.json.FileHeader;
import padward.format.json.JsonOut;

/** Writes designs. */
public final class DesignWriter {
    private final Design design;
    private final Fabric fabric;
    private final JsonWriter out;

    private DesignWriter(Design design, JsonWriter out) {
        this.design = design;
        this.fabric = design.fabric();
        this.out = out;
    }

    /**
     * Writes a file, compressed when its name ends in {@code .gz}.
     *
     * @param fabricRef name of the fabric's file, relative to the design's
     * @param boardRef name of the board's file, {@code ""} for none
     * @throws BadInput when it cannot be written
     */
    public static void write(Design design, Path file, String fabricRef, String boardRef)
            throws BadInput {
        JsonOut.write(file, out -> new DesignWriter(design, out).writeAll(fabricRef, boardRef));
    }

    /**
     * Writes to a stream what {@link #write(Design, Path, String, String)} puts into a plain file.
     */
    static void write(Design design, OutputStream bytes, String fabricRef, String boardRef)
            throws IOException {
        JsonOut.write(
                bytes,
                FormattingStyle.PRETTY.withIndent(" "),
                out -> new DesignWriter(design, out).writeAll(fabricRef, boardRef));
    }

    private void writeAll(String fabricRef, String boardRef) throws IOException {
        out.beginObject();
        out.name("format").value(FileHeader.DESIGN).name("name").value(design.name());
        JsonOut.optional(out, "note", design.note());
        out.name("fabric").value(fabricRef);
        JsonOut.optional(out, "board", boardRef);
        out.name("ports").beginArray();
        for (Port port : design.ports()) {
            out.beginObject().name("name").value(port.name());
            out.name("direction").value(port.direction().label());
            out.name("pad").value(fabric.pads().get(port.pad()).name());
            JsonOut.optional(out, "setting", port.setting());
            JsonOut.optional(out, "enable", port.enableTied() ? Port.TIED : "");
            out.endObject();
        }
        out.endArray();
        out.name("cells").beginArray();
        for (Cell cell : design.cells()) {
            writeCell(cell);
        }
        out.endArray();
        out.name("nets").beginArray();
        for (Net net : design.nets()) {
            writeNet(net);
        }
        out.endArray().endObject();
    }

    private void writeCell(Cell cell) throws IOException {
        out.beginObject().name("name").value(cell.name()).name("kind").value(cell.kind());
        out.name("site").value(fabric.site(cell.site()).name());
        if (!cell.settings().isEmpty()) {
            out.name("settings").beginObject();
            for (Map.Entry<String, String> entry : new TreeMap<>(cell.settings()).entrySet()) {
                out.name(entry.getKey()).value(entry.getValue());
            }
            out.endObject();
        }
        out.endObject();
    }

    private void writeNet(Net net) throws IOException {
        out.beginObject().name("name").value(net.name());
        if (net.clock()) {
            out.name("clock").value(true);
        }
        if (net.requiredPs().isPresent()) {
            out.name("required_ps").value(net.requiredPs().getAsInt());
        }
        out.name("driver");
        writeTerminal(net.driver(), OptionalInt.empty(), false);
        out.name("sinks").beginArray();
        IntSet reached = new IntOpenHashSet(net.route().toVertices());
        // A net without any route need not say of each sink that nothing reaches it.
        boolean routed = net.route().size() > 1;
        for (Terminal sink : net.sinks()) {
            boolean unrouted = routed && !reached.contains(design.vertexOf(sink));
            writeTerminal(sink, ownRequiredPs(net, sink), unrouted);
        }
        out.endArray();
        out.name("route").beginArray();
        writeRoute(net.route());
        out.endArray().endObject();
    }

    private static OptionalInt ownRequiredPs(Net net, Terminal sink) {
        Integer own = net.requiredAtPs().get(sink);
        return own == null ? OptionalInt.empty() : OptionalInt.of(own);
    }

    private void writeTerminal(Terminal terminal, OptionalInt required, boolean unrouted)
            throws IOException {
        out.beginObject();
        if (terminal instanceof Terminal.CellPin at) {
            out.name("cell").value(design.cells().get(at.cell()).name());
            out.name("pin").value(at.pin());
        } else {
            int port = ((Terminal.PortEnd) terminal).port();
            out.name("port").value(design.ports().get(port).name());
        }
        if (required.isPresent()) {
            out.name("required_ps").value(required.getAsInt());
        }
        if (unrouted) {
            out.name("unrouted").value(true);
        }
        out.endObject();
    }

    /** A branch goes on as long as each vertex is the child of the one before it. */
    private void writeRoute(RouteTree tree) throws IOException {
        boolean open = false;
        for (int place = 1; place < tree.size(); place++) {
            boolean goesOn = open && tree.parent(place) == place - 1;
            if (!goesOn) {
                if (open) {
                    out.endArray();
                }
                out.beginArray().value(fabric.vertexName(tree.vertex(tree.parent(place))));
                open = true;
            }
            out.value(fabric.vertexName(tree.vertex(place)));
        }
        if (open) {
            out.endArray();
        }
    }
}
