package padward.watch.place;

import it.unimi.dsi.fastutil.ints.IntLinkedOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import padward.base.Progress;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupant;
import padward.design.RouteTree;
import padward.design.RouteTreeBranches;
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.route.negotiate.NegotiatedRouter;
import padward.route.negotiate.RouteJob;

/**
 * Reroutes the nets whose wires a wired layout wants, all of them together: what of their trees is
 * not in the way stays. Nothing else is touched.
 */
final class RoomMaker {
    private static final int ROUNDS = 12;
    private static final int MOST_NETS = 12;

    private final Design design;
    private final UnusedResources unused;

    RoomMaker(UnusedResources unused) {
        this.design = unused.design();
        this.unused = unused;
    }

    /** The edits that make room; empty when some net finds no other route. */
    Optional<List<Edit>> roomFor(Wiring wiring, Progress progress) {
        BitSet wanted = wanted(wiring);
        IntSet inTheWay = new IntLinkedOpenHashSet();
        wanted.stream()
                .filter(unused.movable()::get)
                .forEach(v -> inTheWay.add(Occupant.netOf(design.occupancy().occupantId(v))));
        if (inTheWay.isEmpty()) {
            return Optional.of(List.of());
        }
        if (inTheWay.size() > MOST_NETS) {
            return Optional.empty();
        }
        List<Net> nets = inTheWay.intStream().mapToObj(n -> design.nets().get(n)).toList();
        return rerouted(nets, wanted, progress).flatMap(this::inOrder);
    }

    /** What the circuit uses, its sites' pins included. */
    private static BitSet wanted(Wiring wiring) {
        BitSet wanted = new BitSet();
        for (RouteTree tree : wiring.trees()) {
            for (int vertex : tree.toVertices()) {
                wanted.set(vertex);
            }
        }
        for (FreeSite freeSite : wiring.layout().sites()) {
            int first = freeSite.site().firstPin();
            wanted.set(first, first + freeSite.site().pins().size());
        }
        return wanted;
    }

    private Optional<List<Edit>> rerouted(List<Net> nets, BitSet wanted, Progress progress) {
        BitSet closed = (BitSet) unused.closed().clone();
        closed.or(unused.movable());
        for (Net net : nets) {
            for (int vertex : net.route().toVertices()) {
                if (unused.movable().get(vertex)) {
                    closed.clear(vertex);
                }
            }
        }
        closed.or(wanted);
        Fabric fabric = design.fabric();
        List<RouteJob> jobs = new ArrayList<>();
        for (Net net : nets) {
            IntSet sinks = sinks(net);
            RouteTree kept = kept(net, sinks, wanted);
            for (int vertex : kept.toVertices()) {
                closed.set(vertex);
            }
            jobs.add(RouteJob.from(fabric, kept, Corner.SLOW, sinks.toIntArray()));
        }
        List<Optional<RouteTree>> found =
                new NegotiatedRouter(fabric, closed, others(nets), Optional.empty())
                        .route(jobs, ROUNDS, LayoutRouter.quiet(progress));
        List<Edit> edits = new ArrayList<>();
        for (int i = 0; i < nets.size(); i++) {
            if (found.get(i).isEmpty()) {
                return Optional.empty();
            }
            edits.add(new Edit.RouteNet(nets.get(i).name(), found.get(i).get()));
        }
        return Optional.of(edits);
    }

    private List<RouteTree> others(List<Net> nets) {
        return design.fabric().switchGroups().isEmpty()
                ? List.of()
                : design.nets().stream().filter(n -> !nets.contains(n)).map(Net::route).toList();
    }

    /** Vertices of the sinks that a net reaches. */
    private IntSet sinks(Net net) {
        IntSet on = new IntLinkedOpenHashSet(net.route().toVertices());
        IntSet result = new IntLinkedOpenHashSet();
        for (Terminal sink : net.sinks()) {
            int vertex = design.vertexOf(sink);
            if (on.contains(vertex)) {
                result.add(vertex);
            }
        }
        return result;
    }

    /** What of a net's tree leads to sinks without what is wanted. */
    private static RouteTree kept(Net net, IntSet sinks, BitSet wanted) {
        RouteTree tree = net.route();
        boolean[] cut = new boolean[tree.size()];
        for (int place = 1; place < tree.size(); place++) {
            cut[place] = cut[tree.parent(place)] || wanted.get(tree.vertex(place));
        }
        boolean[] gone = new boolean[tree.size()];
        boolean[] serves = new boolean[tree.size()];
        for (int place = tree.size() - 1; place > 0; place--) {
            serves[place] |= !cut[place] && sinks.contains(tree.vertex(place));
            serves[tree.parent(place)] |= serves[place];
            gone[place] = !serves[place];
        }
        return RouteTreeBranches.without(tree, gone);
    }

    /** One may need the wires that another leaves: the order in which that works, if one does. */
    private Optional<List<Edit>> inOrder(List<Edit> edits) {
        List<Edit> open = new ArrayList<>(edits);
        List<Edit> done = new ArrayList<>();
        while (!open.isEmpty()) {
            Optional<Edit> next = open.stream().filter(e -> isPossible(done, e)).findFirst();
            if (next.isEmpty()) {
                return Optional.empty();
            }
            open.remove(next.get());
            done.add(next.get());
        }
        return Optional.of(Collections.unmodifiableList(done));
    }

    private boolean isPossible(List<Edit> done, Edit next) {
        List<Edit> all = new ArrayList<>(done);
        all.add(next);
        return Outcome.of(design, all) instanceof Outcome.Applied;
    }
}
