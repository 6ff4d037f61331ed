package padward.breakout.ask;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.BitSet;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;
import padward.route.search.SearchSources;
import padward.unblock.release.QuestionContext;

/**
 * Where a net's signal gets when no route leads to the pad, whatever is removed: distinguishes the
 * reasons by what can be reached from the net, and from where the pad can be reached. O(edges
 * reached).
 *
 * @param reason why there is no route
 * @param detail where the signal gets instead, or what is not known, as a sentence; may be empty
 */
record NoRouteDiagnosis(NoRouteReason reason, String detail) {
    private static final int MOST_NAMED = 4;

    static NoRouteDiagnosis of(Question question, SearchSources starts, QuestionContext situation) {
        Optional<NoRouteDiagnosis> kept =
                ClosedOnRoute.find(situation, starts, question.padValue().vertex());
        if (kept.isPresent()) {
            return kept.get();
        }
        Fabric fabric = question.design().fabric();
        IntSet closed = situation.closedVertices();
        IntArrayList own = new IntArrayList();
        for (int i = 0; i < starts.size(); i++) {
            own.add(starts.vertex(i));
        }
        BitSet forth = spread(fabric, fabric.edgesOut(), own, closed);
        Set<String> kinds = wireKinds(fabric, forth);
        if (kinds.isEmpty()) {
            return new NoRouteDiagnosis(NoRouteReason.NEVER_LEAVES_ITS_SITE, "");
        }
        if (forth.get(question.padValue().vertex())) {
            return new NoRouteDiagnosis(NoRouteReason.SWITCHES_EXCLUDE, "");
        }
        IntArrayList pad = new IntArrayList(new int[] {question.padValue().vertex()});
        Set<String> leading = wireKinds(fabric, spread(fabric, fabric.edgesIn(), pad, closed));
        if (leading.isEmpty()) {
            return new NoRouteDiagnosis(NoRouteReason.NOTHING_LEADS_TO_PAD, "");
        }
        String detail = ends(fabric, forth, kinds);
        Set<String> common = new TreeSet<>(kinds);
        common.retainAll(leading);
        if (!common.isEmpty()) {
            return new NoRouteDiagnosis(NoRouteReason.PAD_OUT_OF_REACH, detail);
        }
        return new NoRouteDiagnosis(
                question.net().clock()
                        ? NoRouteReason.CLOCK_WIRES_ONLY
                        : NoRouteReason.DEDICATED_WIRES,
                detail);
    }

    private static BitSet spread(
            Fabric fabric, EdgeCursor edges, IntArrayList from, IntSet closed) {
        BitSet seen = new BitSet();
        IntArrayList open = new IntArrayList(from);
        open.forEach(seen::set);
        while (!open.isEmpty()) {
            edges.reset(open.popInt());
            while (edges.next()) {
                int next = edges.other();
                if (!closed.contains(next) && !seen.get(next)) {
                    seen.set(next);
                    // No route goes through a pad.
                    if (fabric.kind(next) != VertexKind.PAD) {
                        open.add(next);
                    }
                }
            }
        }
        return seen;
    }

    private static Set<String> wireKinds(Fabric fabric, BitSet vertices) {
        Set<String> result = new TreeSet<>();
        vertices.stream()
                .filter(v -> fabric.kind(v) == VertexKind.WIRE)
                .forEach(v -> result.add(fabric.wireKind(v)));
        return result;
    }

    /** The pins at which what was reached ends. */
    private static String ends(Fabric fabric, BitSet reached, Set<String> kinds) {
        Set<String> pins = new TreeSet<>();
        EdgeCursor edges = fabric.edgesOut();
        reached.stream()
                .filter(v -> fabric.kind(v) == VertexKind.PIN)
                .forEach(
                        v -> {
                            edges.reset(v);
                            if (!edges.next()) {
                                String name = fabric.vertexName(v);
                                pins.add(name.substring(name.lastIndexOf('.') + 1));
                            }
                        });
        String over = "Its wires are of kind " + named(kinds);
        return pins.isEmpty()
                ? over + ", which lead to no pin."
                : over + ", which lead to pins " + named(pins) + ".";
    }

    private static String named(Collection<String> names) {
        List<String> few = names.stream().limit(MOST_NAMED).toList();
        String all = String.join(", ", few);
        return names.size() > few.size() ? all + " and others" : all;
    }
}
