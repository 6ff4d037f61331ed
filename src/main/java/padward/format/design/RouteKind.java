package padward.format.design;

import static padward.format.form.Kinds.list;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.ArrayList;
import java.util.List;
import padward.design.RouteTree;
import padward.format.form.Kind;
import padward.format.form.Schema;

/** Routes of nets: branches of names of vertices. */
final class RouteKind {
    private RouteKind() {}

    static Kind<List<IntArrayList>> in(DesignScope scope) {
        return list(
                Kind.of(
                        in -> {
                            IntArrayList branch = new IntArrayList();
                            in.beginArray();
                            while (in.more()) {
                                branch.add(scope.routes().readVertex(in));
                            }
                            in.endArray();
                            return branch;
                        },
                        (out, branch) -> {
                            out.beginArray();
                            for (int i = 0; i < branch.size(); i++) {
                                out.value(scope.fabric().vertexName(branch.getInt(i)));
                            }
                            out.endArray();
                        },
                        () -> Schema.arrayOf(Schema.name()).with("minItems", 2)));
    }

    /** A branch goes on as long as each vertex is the child of the one before it. */
    static List<IntArrayList> branches(RouteTree tree) {
        List<IntArrayList> all = new ArrayList<>();
        for (int place = 1; place < tree.size(); place++) {
            if (all.isEmpty() || tree.parent(place) != place - 1) {
                all.add(IntArrayList.of(tree.vertex(tree.parent(place))));
            }
            all.get(all.size() - 1).add(tree.vertex(place));
        }
        return all;
    }
}
