package padward.format.design;

import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import padward.base.BadInput;
import padward.design.RouteTree;
import padward.format.form.Kind;
import padward.format.form.Schema;
import padward.format.json.JsonIn;

/** Routes of nets: branches of names of vertices. */
final class RouteKind {
    private final DesignScope scope;
    private final Branches.Builder builder = new Branches.Builder();

    private RouteKind(DesignScope scope) {
        this.scope = scope;
    }

    static Kind<Branches> in(DesignScope scope) {
        RouteKind routes = new RouteKind(scope);
        return Kind.of(
                routes::read,
                routes::write,
                () -> Schema.arrayOf(Schema.arrayOf(Schema.name()).with("minItems", 2)));
    }

    private Branches read(JsonIn in) throws BadInput {
        in.beginArray();
        while (in.more()) {
            in.beginArray();
            while (in.more()) {
                builder.add(scope.routes().readVertex(in));
            }
            in.endArray();
            builder.endBranch();
        }
        in.endArray();
        return builder.build();
    }

    private void write(JsonWriter out, Branches branches) throws IOException {
        out.beginArray();
        for (int branch = 0; branch < branches.count(); branch++) {
            out.beginArray();
            for (int i = 0; i < branches.size(branch); i++) {
                out.value(scope.fabric().vertexName(branches.vertex(branch, i)));
            }
            out.endArray();
        }
        out.endArray();
    }

    /** A branch goes on as long as each vertex is the child of the one before it. */
    static Branches branches(RouteTree tree) {
        Branches.Builder all = new Branches.Builder();
        for (int place = 1; place < tree.size(); place++) {
            if (place == 1) {
                all.add(tree.vertex(0));
            } else if (tree.parent(place) != place - 1) {
                all.endBranch();
                all.add(tree.vertex(tree.parent(place)));
            }
            all.add(tree.vertex(place));
        }
        if (tree.size() > 1) {
            all.endBranch();
        }
        return all.build();
    }
}
