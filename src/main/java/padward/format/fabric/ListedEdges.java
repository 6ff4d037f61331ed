package padward.format.fabric;

import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.util.Optional;
import java.util.function.Supplier;
import padward.base.BadInput;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKey;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.FabricLimits;
import padward.fabric.Taps;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;
import padward.fabric.explicit.ExplicitBuilder;
import padward.format.form.IntKind;
import padward.format.form.Kind;
import padward.format.form.Schema;
import padward.format.json.JsonIn;
import padward.format.source.FileLimits;
import padward.format.source.Text;

/**
 * The switches and fixed connections of an explicit fabric, {@code ["from", "to", fast, slow]}
 * each: by far the most rows of a file, so they are read into the builder and written from the
 * fabric one by one.
 */
final class ListedEdges {
    private final Supplier<ExplicitBuilder> builder;
    private final Supplier<Fabric> written;
    private final IntKind tile;
    private int count;
    private String lastName = "";
    private int lastVertex = Fabric.NOTHING;

    ListedEdges(Supplier<ExplicitBuilder> builder, Supplier<Fabric> written, IntKind tile) {
        this.builder = builder;
        this.written = written;
        this.tile = tile;
    }

    /** The edges of one kind; none is kept when they are read. */
    Kind<Optional<Fabric>> ofKind(EdgeKind kind) {
        return Kind.of(
                in -> {
                    in.beginArray();
                    while (in.more()) {
                        readEdge(in, kind);
                    }
                    in.endArray();
                    return Optional.empty();
                },
                (out, fabric) -> writeEdges(out, fabric.orElseThrow(), kind),
                () -> {
                    Schema ps = Schema.whole(0, FabricLimits.EDGE_DELAY_PS);
                    Schema end = Schema.name();
                    return Schema.arrayOf(
                            Schema.tuple(end, end, ps, ps, tile.schema()).with("minItems", 4));
                });
    }

    private void readEdge(JsonIn in, EdgeKind kind) throws BadInput {
        in.beginArray();
        int from = readSource(in);
        int to = findVertex(in, in.name());
        if (from == to) {
            throw in.fault("two different ends", "the same twice");
        }
        Delay delay = in.delayInside();
        if (in.more()) {
            builder.get().setSwitchTile(from, to, tile.read(in));
        }
        in.endArray();
        if (count++ >= FileLimits.EDGES) {
            throw in.fault(
                    "at most " + FileLimits.EDGES + " switches and fixed connections", "more");
        }
        builder.get().addEdge(from, to, kind, delay);
    }

    /** Most edges begin at the same vertex as the one before. */
    private int readSource(JsonIn in) throws BadInput {
        String name = in.name();
        if (!name.equals(lastName)) {
            lastVertex = findVertex(in, name);
            lastName = name;
        }
        return lastVertex;
    }

    private int findVertex(JsonIn in, String name) throws BadInput {
        int vertex = builder.get().findVertex(name);
        if (vertex == Fabric.NOTHING) {
            throw in.fault("the name of a wire, a pin (site.pin) or a pad", Text.quote(name));
        }
        return vertex;
    }

    /** The ends of a switch, {@code ["from", "to"]}, as an {@link EdgeKey}. */
    Kind<Long> ends() {
        return Kind.of(
                in -> {
                    in.beginArray();
                    int from = findVertex(in, in.name());
                    int to = findVertex(in, in.name());
                    in.endArray();
                    return EdgeKey.of(from, to);
                },
                (out, edge) -> {
                    Fabric fabric = written.get();
                    out.beginArray().value(fabric.vertexName(EdgeKey.from(edge)));
                    out.value(fabric.vertexName(EdgeKey.to(edge))).endArray();
                },
                () -> Schema.tuple(Schema.name(), Schema.name()));
    }

    private void writeEdges(JsonWriter out, Fabric fabric, EdgeKind kind) throws IOException {
        out.beginArray();
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
                    writeTile(out, fabric, v, edges.other());
                    out.endArray();
                }
            }
        }
        out.endArray();
    }

    /** The tile of a switch, where the taps of its ends do not show it. */
    private void writeTile(JsonWriter out, Fabric fabric, int from, int to) throws IOException {
        int at = fabric.switchTile(from, to);
        if (at != Taps.whereBothMeet(fabric, from, to)) {
            tile.write(out, at);
        }
    }
}
