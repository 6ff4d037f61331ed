package padward.breakout.ask;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntList;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.BitSet;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.IntPredicate;
import padward.base.Progress;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;
import padward.route.cost.BlockedVertices;
import padward.route.search.SearchSources;
import padward.unblock.release.QuestionContext;

/**
 * Where a net's signal gets when no route leads to the pad, whatever is removed: distinguishes the
 * reasons by what can be reached from the net, and from where the pad can be reached. O(edges
 * reached).
 *
 * @param reason why there is no route
 * @param detail where the signal gets instead, or what is not known, in sentences; may be empty
 */
record NoRouteDiagnosis(NoRouteReason reason, String detail) {
    private static final int MOST_NAMED = 4;
    private static final int VERTICES_BETWEEN_CHECKS = 4096;

    static NoRouteDiagnosis of(
            Question question, SearchSources starts, QuestionContext situation, Progress progress) {
        Optional<NoRouteDiagnosis> kept =
                ClosedOnRoute.find(situation, starts, question.padValue().vertex(), progress);
        if (kept.isPresent()) {
            return kept.get();
        }
        return byOwnPassThrough(question, starts, situation, progress)
                .orElseGet(() -> byReach(question, starts, situation.closed(), progress));
    }

    /**
     * The reason where the pad would be reached if the net passed through no site; the sites are
     * those of a route that needs the fewest of their pins.
     */
    private static Optional<NoRouteDiagnosis> byOwnPassThrough(
            Question question, SearchSources starts, QuestionContext situation, Progress progress) {
        IntSet beside = situation.closedByOwnPassThrough();
        if (beside.isEmpty()) {
            return Optional.empty();
        }
        Fabric fabric = question.design().fabric();
        BlockedVertices closed = situation.closed();
        int pad = question.padValue().vertex();
        IntList route =
                CheapestRoute.find(
                        fabric,
                        starts,
                        pad,
                        v ->
                                closed.get(v) && !beside.contains(v)
                                        || v != pad && fabric.kind(v) == VertexKind.PAD,
                        (from, to) -> beside.contains(to),
                        progress);
        Set<String> sites = new TreeSet<>();
        route.intStream()
                .filter(beside::contains)
                .forEach(v -> sites.add(fabric.site(fabric.siteOf(v)).name()));
        return sites.isEmpty()
                ? Optional.empty()
                : Optional.of(new NoRouteDiagnosis(NoRouteReason.OWN_PASS_THROUGH, passing(sites)));
    }

    private static String passing(Set<String> sites) {
        boolean one = sites.size() == 1;
        return "It passes through "
                + (one ? "site " : "sites ")
                + named(sites)
                + ", and a route to the pad would need other pins of "
                + (one ? "it" : "them")
                + ". Reroute the net so that it does not pass through "
                + (one ? "that site" : "those sites")
                + ", or remove what it feeds through "
                + (one ? "the site." : "the sites.");
    }

    private static IntArrayList verticesOf(SearchSources starts) {
        IntArrayList result = new IntArrayList();
        for (int i = 0; i < starts.size(); i++) {
            result.add(starts.vertex(i));
        }
        return result;
    }

    /** The reason where nothing locked or unusable is it. */
    static NoRouteDiagnosis byReach(
            Question question, SearchSources starts, BlockedVertices closed, Progress progress) {
        Fabric fabric = question.design().fabric();
        BitSet forth = spread(fabric, fabric.edgesOut(), verticesOf(starts), closed::get, progress);
        Set<String> kinds = wireKinds(fabric, forth);
        if (kinds.isEmpty()) {
            return new NoRouteDiagnosis(NoRouteReason.NEVER_LEAVES_ITS_SITE, "");
        }
        if (forth.get(question.padValue().vertex())) {
            return new NoRouteDiagnosis(NoRouteReason.SWITCHES_EXCLUDE, "");
        }
        IntArrayList pad = new IntArrayList(new int[] {question.padValue().vertex()});
        Set<String> leading =
                wireKinds(fabric, spread(fabric, fabric.edgesIn(), pad, closed::get, progress));
        if (leading.isEmpty()) {
            return new NoRouteDiagnosis(NoRouteReason.NOTHING_LEADS_TO_PAD, "");
        }
        String detail = ends(fabric, forth, kinds, progress);
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
            Fabric fabric,
            EdgeCursor edges,
            IntArrayList from,
            IntPredicate closed,
            Progress progress) {
        BitSet seen = new BitSet();
        IntArrayList open = new IntArrayList(from);
        open.forEach(seen::set);
        int untilCheck = VERTICES_BETWEEN_CHECKS;
        while (!open.isEmpty()) {
            if (--untilCheck == 0) {
                untilCheck = VERTICES_BETWEEN_CHECKS;
                progress.check();
            }
            edges.reset(open.popInt());
            while (edges.next()) {
                int next = edges.other();
                if (!closed.test(next) && !seen.get(next)) {
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
    private static String ends(
            Fabric fabric, BitSet reached, Set<String> kinds, Progress progress) {
        Set<String> pins = new TreeSet<>();
        EdgeCursor edges = fabric.edgesOut();
        int looked = 0;
        for (int v = reached.nextSetBit(0); v >= 0; v = reached.nextSetBit(v + 1)) {
            if (++looked % VERTICES_BETWEEN_CHECKS == 0) {
                progress.check();
            }
            if (fabric.kind(v) == VertexKind.PIN) {
                edges.reset(v);
                if (!edges.next()) {
                    String name = fabric.vertexName(v);
                    pins.add(name.substring(name.lastIndexOf('.') + 1));
                }
            }
        }
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
