package padward.format.ledger;

import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import padward.base.BadInput;
import padward.change.Edit;
import padward.change.Lead;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.design.RouteTree;
import padward.fabric.Fabric;
import padward.format.json.FileHeader;
import padward.format.json.JsonOut;

/** Writes ledgers, as a whole or not at all. */
public final class LedgerWriter {
    private final Fabric fabric;
    private final JsonWriter out;

    private LedgerWriter(Fabric fabric, JsonWriter out) {
        this.fabric = fabric;
        this.out = out;
    }

    /**
     * Writes a file, compressed when its name ends in {@code .gz}.
     *
     * @param fabric the fabric whose vertices the entries name
     * @throws BadInput when it cannot be written; an old file is then unchanged
     * @throws IllegalArgumentException when an entry has no digests
     */
    public static void write(Ledger ledger, Fabric fabric, Path file) throws BadInput {
        JsonOut.write(file, out -> new LedgerWriter(fabric, out).writeAll(ledger));
    }

    /** Writes an array of entries at the stream's position, without their digests. */
    static void writeUnsigned(List<LedgerEntry> entries, Fabric fabric, JsonWriter out)
            throws IOException {
        LedgerWriter writer = new LedgerWriter(fabric, out);
        out.beginArray();
        for (LedgerEntry entry : entries) {
            out.beginObject();
            writer.writeChange(entry);
            out.endObject();
        }
        out.endArray();
    }

    private void writeAll(Ledger ledger) throws IOException {
        out.beginObject();
        out.name("format").value(FileHeader.LEDGER);
        out.name("design").value(ledger.design());
        out.name("sha256").value(ledger.digest());
        out.name("entries").beginArray();
        for (LedgerEntry entry : ledger.entries()) {
            LedgerEntry.Digests digests =
                    entry.digests().orElseThrow(() -> new IllegalArgumentException("no digests"));
            out.beginObject();
            writeChange(entry);
            out.name("before").value(digests.before()).name("after").value(digests.after());
            out.endObject();
        }
        out.endArray();
        out.endObject();
    }

    private void writeChange(LedgerEntry entry) throws IOException {
        out.name("when").value(entry.when());
        out.name("who").value(entry.who());
        JsonOut.optional(out, "note", entry.note());
        out.name("net").value(entry.net()).name("pad").value(entry.pad());
        out.name("edits").beginArray();
        for (Edit edit : entry.edits()) {
            writeEdit(edit);
        }
        out.endArray();
        if (!entry.accepted().isEmpty()) {
            out.name("accepted").beginArray();
            for (LedgerEntry.Acceptance one : entry.accepted()) {
                out.beginObject();
                out.name("what").value(one.what()).name("who").value(one.who());
                out.name("when").value(one.when());
                out.endObject();
            }
            out.endArray();
        }
        writeLeads(entry.leads());
    }

    private void writeLeads(List<Lead> leads) throws IOException {
        if (leads.isEmpty()) {
            return;
        }
        out.name("leads").beginArray();
        for (Lead lead : leads) {
            out.beginObject().name("port").value(lead.port());
            out.name("channel").value(lead.channel());
            JsonOut.optional(out, "name", lead.name());
            JsonOut.optional(out, "pod", lead.pod());
            JsonOut.optional(out, "colour", lead.colour());
            out.endObject();
        }
        out.endArray();
    }

    private void writeEdit(Edit edit) throws IOException {
        out.beginObject();
        edit.accept(new Members());
        out.endObject();
    }

    /** Writes the members of an edit's object. */
    private final class Members implements Edit.Visitor<JsonWriter, IOException> {
        @Override
        public JsonWriter disconnectPort(Edit.DisconnectPort edit) throws IOException {
            return out.name("do").value("disconnect-port").name("port").value(edit.port());
        }

        @Override
        public JsonWriter removeNet(Edit.RemoveNet edit) throws IOException {
            return out.name("do").value("remove-net").name("net").value(edit.net());
        }

        @Override
        public JsonWriter removeCell(Edit.RemoveCell edit) throws IOException {
            return out.name("do").value("remove-cell").name("cell").value(edit.cell());
        }

        @Override
        public JsonWriter setCell(Edit.SetCell edit) throws IOException {
            out.name("do").value("set-cell").name("cell").value(edit.cell());
            return out.name("setting").value(edit.setting()).name("value").value(edit.value());
        }

        @Override
        public JsonWriter routeNet(Edit.RouteNet edit) throws IOException {
            out.name("do").value("route-net");
            writeRouted(edit);
            return out;
        }

        @Override
        public JsonWriter relocateCell(Edit.RelocateCell edit) throws IOException {
            out.name("do").value("relocate-cell").name("cell").value(edit.cell());
            out.name("site").value(edit.site()).name("nets").beginArray();
            for (Edit.RouteNet route : edit.nets()) {
                out.beginObject();
                writeRouted(route);
                out.endObject();
            }
            return out.endArray();
        }

        @Override
        public JsonWriter breakOut(Edit.BreakOut edit) throws IOException {
            out.name("do").value("break-out").name("net").value(edit.net());
            out.name("port").value(edit.port()).name("pad").value(edit.pad());
            JsonOut.optional(out, "setting", edit.setting());
            writeNames("route", edit.route());
            return out;
        }

        @Override
        public JsonWriter setDriver(Edit.SetDriver edit) throws IOException {
            out.name("do").value("set-driver").name("port").value(edit.port());
            return out.name("setting").value(edit.setting());
        }

        @Override
        public JsonWriter tieEnable(Edit.TieEnable edit) throws IOException {
            return out.name("do").value("tie-enable").name("port").value(edit.port());
        }
    }

    private void writeRouted(Edit.RouteNet route) throws IOException {
        out.name("net").value(route.net());
        out.name("from").value(fabric.vertexName(route.route().root()));
        out.name("steps").beginArray();
        RouteTree tree = route.route();
        for (int place = 1; place < tree.size(); place++) {
            out.beginArray();
            out.value(fabric.vertexName(tree.vertex(tree.parent(place))));
            out.value(fabric.vertexName(tree.vertex(place)));
            out.endArray();
        }
        out.endArray();
    }

    private void writeNames(String name, List<Integer> vertices) throws IOException {
        out.name(name).beginArray();
        for (int vertex : vertices) {
            out.value(fabric.vertexName(vertex));
        }
        out.endArray();
    }
}
