package padward.unblock.move;

import it.unimi.dsi.fastutil.ints.IntLinkedOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import padward.change.Edit;
import padward.design.Design;
import padward.design.Net;
import padward.design.RouteTree;
import padward.fabric.Fabric;
import padward.route.search.VertexPath;
import padward.unblock.release.QuestionContext;

/**
 * Moves nets aside. First only the blocked branches of a net are rerouted, then the whole net; if
 * that fails too, other nets are pushed aside to the depth allowed, and rerouted in turn.
 */
final class NetMoveSearch {
    private final NetRerouter rerouter;
    private final QuestionContext context;
    private final Design design;
    private final int depth;

    /**
     * @param depth how deep other nets may be pushed aside
     */
    NetMoveSearch(NetRerouter rerouter, int depth) {
        this.rerouter = rerouter;
        this.context = rerouter.context();
        this.design = context.design();
        this.depth = depth;
    }

    /** Everything that one net's move does: new routes by net number. */
    private static final class Moves {
        final Map<Integer, NetRerouter.Rerouted> routes = new LinkedHashMap<>();
    }

    /**
     * Moves a net aside.
     *
     * @param overlay changed when the move succeeds, left alone when it fails
     */
    Optional<Consequence.Movable> moveNet(Net net, OccupancyOverlay overlay) {
        Moves moves = new Moves();
        OccupancyOverlay tried = overlay.copy();
        boolean blocking =
                rerouter.isStuck(net, overlay, design::vertexOf)
                        || overlay.isReserved(net.route().root());
        if (tried.wasMoved(net.id()) && !blocking) {
            // It was pushed aside for another one, and has kept clear of the route since.
            return Optional.of(
                    new Consequence.Movable(Consequence.Means.REROUTE, List.of(), List.of()));
        }
        if (!relay(net, tried, depth, moves)) {
            return Optional.empty();
        }
        overlay.become(tried);
        List<Edit> edits = new ArrayList<>();
        List<DelayChange> delayChanges = new ArrayList<>();
        moves.routes.forEach(
                (id, route) -> {
                    Net moved = design.nets().get(id);
                    edits.add(route.of(moved));
                    if (moved.route().size() > 1) {
                        NetEnds ends = rerouter.after(design::vertexOf, route.swaps());
                        delayChanges.add(rerouter.delayChange(moved, route.tree(), ends));
                    }
                });
        return Optional.of(new Consequence.Movable(Consequence.Means.REROUTE, delayChanges, edits));
    }

    private boolean relay(Net net, OccupancyOverlay overlay, int levels, Moves moves) {
        boolean stuck =
                rerouter.isStuck(net, overlay, design::vertexOf)
                        || overlay.isReserved(net.route().root())
                        || overlay.wasMoved(net.id())
                        || net.id() == context.net().id();
        if (stuck) {
            return false;
        }
        IntSet sinks = rerouter.reachedSinks(net, design::vertexOf);
        RouteTree kept = rerouter.keptPart(net, sinks, overlay);
        // The blocked branches alone, then everything; then both with ends at other pins; then with
        // others pushed aside.
        for (boolean swapping : new boolean[] {false, true}) {
            for (RouteTree base : List.of(kept, RouteTree.of(net.route().root()))) {
                OccupancyOverlay tried = overlay.copy();
                rerouter.giveBack(net, base, tried);
                Optional<NetRerouter.Rerouted> route =
                        swapping && !rerouter.canSwap(net)
                                ? Optional.empty()
                                : rerouter.route(
                                        net, base, sinks, design::vertexOf, swapping, tried);
                if (route.isPresent()) {
                    tried.noteMoved(net.id());
                    overlay.become(tried);
                    moves.routes.put(net.id(), route.get());
                    return true;
                }
            }
        }
        return levels > 0 && routePushing(net, kept, sinks, overlay, levels, moves);
    }

    /** Routes a net over wires of others, which are rerouted in turn. */
    private boolean routePushing(
            Net net,
            RouteTree kept,
            IntSet sinks,
            OccupancyOverlay overlay,
            int levels,
            Moves moves) {
        OccupancyOverlay tried = overlay.copy();
        rerouter.giveBack(net, kept, tried);
        Optional<GrowingTree> started = rerouter.startFrom(kept, sinks, tried);
        if (started.isEmpty()) {
            return false;
        }
        GrowingTree tree = started.get();
        IntSet pushed = new IntLinkedOpenHashSet();
        List<Edit.PinSwap> swaps = new ArrayList<>();
        RipUpCost ripUp = new RipUpCost(context, net, tried);
        for (int sink : sinks) {
            if (tree.contains(sink)) {
                continue;
            }
            Optional<NetRerouter.EndPath> found =
                    rerouter.pathTo(
                            net,
                            sink,
                            design::vertexOf,
                            true,
                            tree,
                            goal -> ripUp.routesTo(goal, tree.build()),
                            tried);
            if (found.isEmpty()) {
                return false;
            }
            VertexPath path = found.get().path();
            for (int i = 1; i < path.size(); i++) {
                int occupant = ripUp.usedBy(path.vertex(i), path.last());
                if (occupant != Fabric.NOTHING) {
                    pushed.add(occupant);
                }
                int excluding = ripUp.excluding(path.vertex(i - 1), path.vertex(i));
                if (excluding != Fabric.NOTHING) {
                    pushed.add(excluding);
                }
            }
            tree.addReserved(path, tried);
            found.get().noteIn(swaps, tried);
        }
        tried.noteMoved(net.id());
        Moves more = new Moves();
        more.routes.put(net.id(), new NetRerouter.Rerouted(tree.build(), swaps));
        for (int other : pushed) {
            boolean away = tried.wasMoved(other);
            if (!away && !relay(design.nets().get(other), tried, levels - 1, more)) {
                return false;
            }
        }
        overlay.become(tried);
        moves.routes.putAll(more.routes);
        return true;
    }
}
