package padward.format.fabric;

import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.nio.file.Path;
import padward.base.BadInput;
import padward.fabric.Corner;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.SitePin;
import padward.fabric.SiteView;
import padward.fabric.Tap;
import padward.fabric.Taps;
import padward.fabric.VertexKind;
import padward.format.json.EnumWords;
import padward.format.json.JsonOut;

/** Writes any fabric in the explicit form. */
public final class FabricWriter {
    private final Fabric fabric;
    private final JsonWriter out;

    private FabricWriter(Fabric fabric, JsonWriter out) {
        this.fabric = fabric;
        this.out = out;
    }

    /**
     * Writes a file, compressed when its name ends in {@code .gz}.
     *
     * @throws BadInput when it cannot be written
     */
    public static void write(Fabric fabric, Path file) throws BadInput {
        JsonOut.write(file, out -> new FabricWriter(fabric, out).writeAll());
    }

    private void writeAll() throws IOException {
        out.beginObject();
        InfoWriter.write(out, "explicit", fabric.info(), fabric.columns(), fabric.rows());
        out.name("tiles").beginArray();
        for (int tile = 0; tile < fabric.tileCount(); tile++) {
            out.beginObject();
            at("at", tile);
            out.name("type").value(fabric.tileType(tile)).endObject();
        }
        out.endArray();
        out.name("wires").beginArray();
        for (int v = 0; v < fabric.vertexCount(); v++) {
            if (fabric.kind(v) == VertexKind.WIRE) {
                out.beginObject().name("name").value(fabric.vertexName(v));
                at("from", fabric.tile(v));
                at("to", fabric.headTile(v));
                out.name("kind").value(fabric.wireKind(v));
                writeTaps(v);
                out.endObject();
            }
        }
        out.endArray();
        out.name("sites").beginArray();
        for (int site = 0; site < fabric.siteCount(); site++) {
            writeSite(fabric.site(site));
        }
        out.endArray();
        out.name("pads").beginArray();
        for (Pad pad : fabric.pads()) {
            writePad(pad);
        }
        out.endArray();
        writeEdges("switches", EdgeKind.SWITCH);
        writeEdges("connections", EdgeKind.CONNECTION);
        out.endObject();
    }

    private void writeTaps(int wire) throws IOException {
        if (!fabric.listsTaps(wire)) {
            return;
        }
        String own = fabric.vertexName(wire);
        out.name("taps").beginArray();
        for (Tap tap : fabric.taps(wire)) {
            out.beginObject();
            at("at", tap.tile());
            JsonOut.optional(out, "name", tap.name().equals(own) ? "" : tap.name());
            out.endObject();
        }
        out.endArray();
    }

    private void at(String name, int tile) throws IOException {
        JsonOut.pair(out, name, fabric.column(tile), fabric.row(tile));
    }

    private void writeSite(SiteView site) throws IOException {
        out.beginObject().name("name").value(site.name());
        at("at", site.tile());
        out.name("kind").value(site.kind());
        out.name("accepts").beginArray();
        for (String kind : site.accepts()) {
            out.value(kind);
        }
        out.endArray();
        out.name("pins").beginArray();
        for (SitePin pin : site.pins()) {
            out.beginObject().name("name").value(pin.name());
            out.name("direction").value(EnumWords.of(pin.direction())).endObject();
        }
        out.endArray();
        out.name("through").beginArray();
        EdgeCursor edges = fabric.edgesOut();
        for (int i = 0; i < site.pins().size(); i++) {
            edges.reset(site.firstPin() + i);
            while (edges.next()) {
                if (edges.kind() == EdgeKind.PASS_THROUGH) {
                    out.beginObject().name("from").value(site.pins().get(i).name());
                    out.name("to").value(site.pins().get(edges.other() - site.firstPin()).name());
                    JsonOut.delay(out, "delay_ps", edges.delay());
                    out.endObject();
                }
            }
        }
        out.endArray().endObject();
    }

    private void writePad(Pad pad) throws IOException {
        out.beginObject().name("name").value(pad.name());
        at("at", pad.tile());
        JsonOut.optional(out, "packagePin", pad.packagePin());
        JsonOut.optional(out, "bank", pad.bank());
        out.name("directions").value(EnumWords.of(pad.directions()));
        JsonOut.optional(out, "data", siteName(pad.dataSite()));
        JsonOut.optional(out, "enable", siteName(pad.enableSite()));
        InfoWriter.writeEnable(out, pad.enable());
        JsonOut.optional(out, "setting", pad.defaultSetting());
        PadUseMembers.write(out, pad.use());
        out.endObject();
    }

    private String siteName(int site) {
        return site == Fabric.NOTHING ? "" : fabric.site(site).name();
    }

    /** The tile of a switch, where the taps of its ends do not show it. */
    private void writeTile(int from, int to) throws IOException {
        int tile = fabric.switchTile(from, to);
        if (tile != Taps.whereBothMeet(fabric, from, to)) {
            out.beginArray().value(fabric.column(tile)).value(fabric.row(tile)).endArray();
        }
    }

    private void writeEdges(String name, EdgeKind kind) throws IOException {
        out.name(name).beginArray();
        EdgeCursor edges = fabric.edgesOut();
        for (int v = 0; v < fabric.vertexCount(); v++) {
            edges.reset(v);
            String from = "";
            while (edges.next()) {
                if (edges.kind() == kind) {
                    // names are built when asked for: once for all edges of a vertex
                    from = from.isEmpty() ? fabric.vertexName(v) : from;
                    out.beginArray().value(from);
                    out.value(fabric.vertexName(edges.other()));
                    out.value(edges.delayPs(Corner.FAST)).value(edges.delayPs(Corner.SLOW));
                    writeTile(v, edges.other());
                    out.endArray();
                }
            }
        }
        out.endArray();
    }
}
