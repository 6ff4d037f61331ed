package padward.unblock.move;

import it.unimi.dsi.fastutil.ints.Int2ObjectOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntLinkedOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.IntFunction;
import padward.change.Edit;
import padward.design.Design;
import padward.design.Net;
import padward.design.RouteTree;
import padward.design.RouteTreeBranches;
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;
import padward.route.cost.CostModel;
import padward.route.cost.FreeOnlyCost;
import padward.route.search.CheckedRouteFinder;
import padward.route.search.VertexPath;
import padward.unblock.release.NetResources;
import padward.unblock.release.QuestionContext;

/**
 * Reroutes nets of one design, on a {@link OccupancyOverlay}: what of a net can stay, what it gives
 * back, and the new wires, sink by sink in the design's order, each by the route with the shortest
 * delay at the finder's corner. One object belongs to one thread.
 */
final class NetRerouter {
    /** Nets with more sinks to be rerouted than this are left alone. */
    private static final int MOST_SINKS = 200;

    private final Design design;
    private final QuestionContext context;
    private final Fabric fabric;
    private final CheckedRouteFinder finder;
    private final StepDelays steps;
    private final AlikeEnds alike;
    private final Int2ObjectOpenHashMap<NetResources> usedByNet = new Int2ObjectOpenHashMap<>();

    /**
     * @param context the design and the net of the question, which stays as it is
     */
    NetRerouter(QuestionContext context, CheckedRouteFinder finder) {
        this.design = context.design();
        this.context = context;
        this.fabric = design.fabric();
        this.finder = finder;
        this.steps = new StepDelays(fabric);
        this.alike = new AlikeEnds(design);
    }

    QuestionContext context() {
        return context;
    }

    CheckedRouteFinder finder() {
        return finder;
    }

    private NetResources used(int net) {
        return usedByNet.computeIfAbsent(net, n -> new NetResources(design, design.nets().get(n)));
    }

    /**
     * The overlay on which a route has been reserved for the net of the question, and the site of
     * the pad's enable with it.
     *
     * @param tree the net's own wires, which stay, although removing a cell may have removed some
     * @param enableSite the site, or {@link Fabric#NOTHING}
     */
    OccupancyOverlay overlayFor(RouteTree tree, VertexPath route, int enableSite) {
        OccupancyOverlay overlay = new OccupancyOverlay(design.occupancy(), fabric.switchGroups());
        for (int place = 0; place < tree.size(); place++) {
            overlay.reserve(tree.vertex(place));
            if (place > 0) {
                overlay.switches().reserve(tree.vertex(tree.parent(place)), tree.vertex(place));
            }
            boolean through =
                    place > 0
                            && steps.isThrough(tree.vertex(tree.parent(place)), tree.vertex(place));
            if (through) {
                steps.pinsOf(fabric.siteOf(tree.vertex(place))).forEach(overlay::reserve);
            }
        }
        if (enableSite != Fabric.NOTHING) {
            steps.pinsOf(enableSite).forEach(overlay::reserve);
        }
        for (int vertex : context.closedVertices()) {
            overlay.take(vertex);
        }
        for (int i = 1; i < route.size(); i++) {
            overlay.reserve(route.vertex(i));
            overlay.switches().reserve(route.vertex(i - 1), route.vertex(i));
            if (steps.isThrough(route.vertex(i - 1), route.vertex(i))) {
                steps.pinsOf(fabric.siteOf(route.vertex(i))).forEach(overlay::reserve);
            }
        }
        return overlay;
    }

    /** Whether an end of a net lies where the new route will be. */
    boolean isStuck(Net net, OccupancyOverlay overlay, NetEnds ends) {
        return net.sinks().stream().anyMatch(s -> overlay.isReserved(ends.vertexOf(s)));
    }

    /** The sinks that a net reaches now; one that it does not reach stays so. */
    IntSet reachedSinks(Net net, NetEnds ends) {
        IntSet result = new IntLinkedOpenHashSet();
        for (Terminal sink : net.sinks()) {
            if (used(net.id()).placeOf(design.vertexOf(sink)) != Fabric.NOTHING) {
                result.add(ends.vertexOf(sink));
            }
        }
        return result;
    }

    /** The part of a net's tree that need not be rerouted, without stubs. */
    RouteTree keptPart(Net net, IntSet sinks, OccupancyOverlay overlay) {
        RouteTree tree = net.route();
        NetResources used = used(net.id());
        boolean[] cut = new boolean[tree.size()];
        for (int place = 1; place < tree.size(); place++) {
            boolean siteTaken =
                    used.goesThroughInto(place)
                            && steps.pinsOf(fabric.siteOf(tree.vertex(place)))
                                    .intStream()
                                    .anyMatch(overlay::isReserved);
            cut[place] =
                    cut[tree.parent(place)]
                            || overlay.isReserved(tree.vertex(place))
                            || siteTaken
                            || overlay.switches()
                                    .isReservedAgainst(
                                            tree.vertex(tree.parent(place)), tree.vertex(place));
        }
        boolean[] serves = new boolean[tree.size()];
        for (int place = tree.size() - 1; place > 0; place--) {
            serves[place] |= !cut[place] && sinks.contains(tree.vertex(place));
            serves[tree.parent(place)] |= serves[place];
        }
        boolean[] gone = new boolean[tree.size()];
        for (int place = 1; place < tree.size(); place++) {
            gone[place] = !serves[place];
        }
        return RouteTreeBranches.without(tree, gone);
    }

    /** Makes free what a net uses beyond the part that it keeps. */
    void giveBack(Net net, RouteTree kept, OccupancyOverlay overlay) {
        IntSet stays = new IntOpenHashSet();
        for (int place = 0; place < kept.size(); place++) {
            stays.add(kept.vertex(place));
            if (place > 0 && steps.isThrough(kept.vertex(kept.parent(place)), kept.vertex(place))) {
                stays.addAll(steps.pinsOf(fabric.siteOf(kept.vertex(place))));
            }
        }
        RouteTree tree = net.route();
        for (int place = 1; place < tree.size(); place++) {
            overlay.switches().turnOff(tree.vertex(tree.parent(place)), tree.vertex(place));
        }
        for (int vertex : used(net.id()).vertices()) {
            boolean itsOwn = design.occupancy().occupantId(vertex) == net.id();
            if (itsOwn && !stays.contains(vertex) && !overlay.isNew(vertex)) {
                overlay.release(vertex);
            }
        }
    }

    /** A net that grows from what it keeps; empty when routing the rest is too much work. */
    Optional<GrowingTree> startFrom(RouteTree base, IntSet sinks, OccupancyOverlay overlay) {
        GrowingTree tree = new GrowingTree(fabric, steps, base);
        if (sinks.intStream().filter(s -> !tree.contains(s)).count() > MOST_SINKS) {
            return Optional.empty();
        }
        tree.routeBase(overlay);
        return Optional.of(tree);
    }

    /** A net's new wires, and its ends that went to other pins. */
    record Rerouted(RouteTree tree, List<Edit.PinSwap> swaps) {
        /** The new route as an edit. */
        Edit.RouteNet of(Net net) {
            return new Edit.RouteNet(net.name(), tree, swaps);
        }
    }

    /**
     * Routes what is missing of a net, and marks it as taken. Empty when a sink is shut off.
     *
     * @param swapping whether an end that is shut off may go to a pin that is alike
     */
    Optional<Rerouted> route(
            Net net,
            RouteTree base,
            IntSet sinks,
            NetEnds ends,
            boolean swapping,
            OccupancyOverlay overlay) {
        Optional<GrowingTree> started = startFrom(base, sinks, overlay);
        if (started.isEmpty()) {
            return Optional.empty();
        }
        GrowingTree tree = started.get();
        List<Edit.PinSwap> swaps = new ArrayList<>();
        for (int sink : sinks) {
            if (!tree.contains(sink)) {
                Optional<EndPath> path =
                        pathTo(
                                net,
                                sink,
                                ends,
                                swapping,
                                tree,
                                goal ->
                                        overlay.switches()
                                                .obeying(new FreeOnlyCost(overlay.takenBut(goal))),
                                overlay);
                if (path.isEmpty()) {
                    return Optional.empty();
                }
                tree.add(path.get().path(), overlay);
                path.get().noteIn(swaps, overlay);
            }
        }
        return Optional.of(new Rerouted(tree.build(), swaps));
    }

    /** A path to an end of a net, which may have gone to another pin. */
    record EndPath(VertexPath path, Optional<Edit.PinSwap> swap) {
        void noteIn(List<Edit.PinSwap> swaps, OccupancyOverlay overlay) {
            swap.ifPresent(
                    s -> {
                        swaps.add(s);
                        overlay.noteNewEnd(path.last());
                    });
        }
    }

    /**
     * The shortest path to a sink; only where there is none, the shortest one to the pins that are
     * alike.
     */
    Optional<EndPath> pathTo(
            Net net,
            int sink,
            NetEnds ends,
            boolean swapping,
            GrowingTree tree,
            IntFunction<CostModel> costs,
            OccupancyOverlay overlay) {
        Optional<VertexPath> own = find(tree, sink, costs, overlay);
        if (own.isPresent() || !swapping) {
            return own.map(p -> new EndPath(p, Optional.empty()));
        }
        Optional<EndPath> best = Optional.empty();
        long least = Long.MAX_VALUE;
        for (AlikeEnds.Place place : alike.of(net, sink, ends, overlay)) {
            Optional<VertexPath> path = find(tree, place.vertex(), costs, overlay);
            long arrival = path.map(p -> tree.arrival(p, finder.corner())).orElse(Long.MAX_VALUE);
            if (arrival < least) {
                least = arrival;
                best = path.map(p -> new EndPath(p, Optional.of(place.swap())));
            }
        }
        return best;
    }

    /** Whether some end of a net has pins that are alike. */
    boolean canSwap(Net net) {
        return net.sinks().stream()
                .anyMatch(end -> end instanceof Terminal.CellPin at && alike.isLikeOthers(at));
    }

    private Optional<VertexPath> find(
            GrowingTree tree, int goal, IntFunction<CostModel> costs, OccupancyOverlay overlay) {
        return finder.find(
                tree.starts(finder.corner()),
                goal,
                () -> costs.apply(goal),
                p -> takePads(p, overlay));
    }

    /** Where the ends of a net are after some went to other pins. */
    NetEnds after(NetEnds ends, List<Edit.PinSwap> swaps) {
        return NetEnds.swapped(design, ends, swaps);
    }

    /** Takes the pads that a path goes through, which it must not drive; whether there are any. */
    boolean takePads(VertexPath path, OccupancyOverlay overlay) {
        boolean any = false;
        for (int i = 1; i < path.size() - 1; i++) {
            if (fabric.kind(path.vertex(i)) == VertexKind.PAD) {
                any = true;
                overlay.route(path.vertex(i));
            }
        }
        return any;
    }

    /** What it means for a net to lie elsewhere. */
    DelayChange delayChange(Net net, RouteTree after, NetEnds endsAfter) {
        return DelayChange.of(design, net, used(net.id()), after, endsAfter);
    }
}
