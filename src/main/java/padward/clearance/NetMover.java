package padward.clearance;

import it.unimi.dsi.fastutil.ints.IntLinkedOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import padward.design.Design;
import padward.design.Edit;
import padward.design.Net;
import padward.design.RouteTree;
import padward.fabric.Fabric;
import padward.route.Path;
import padward.route.WayFinder;

/**
 * Moves nets out of the way. First only the blocked branches of a net are laid anew, then the whole
 * net; if that fails too, other nets are pushed aside to the depth allowed, and laid elsewhere in
 * turn.
 */
final class NetMover {
    private final Laying laying;
    private final Situation situation;
    private final Design design;
    private final WayFinder finder;
    private final int depth;

    /**
     * @param depth how deep other nets may be pushed aside
     */
    NetMover(Laying laying, int depth) {
        this.laying = laying;
        this.situation = laying.situation();
        this.design = situation.design();
        this.finder = laying.finder();
        this.depth = depth;
    }

    /** Everything that one net's move does: new trees by net number. */
    private static final class Moves {
        final Map<Integer, RouteTree> trees = new LinkedHashMap<>();
    }

    /**
     * Moves a net out of the way.
     *
     * @param ground changed when the move succeeds, left alone when it fails
     */
    Optional<Consequence.Movable> moveNet(Net net, Ground ground) {
        Moves moves = new Moves();
        Ground tried = ground.copy();
        boolean inTheWay =
                laying.isStuck(net, ground, design::vertexOf)
                        || ground.isReserved(net.route().root());
        if (tried.wasMoved(net.id()) && !inTheWay) {
            // It was pushed aside for another one, and keeps clear of the way since.
            return Optional.of(
                    new Consequence.Movable(Consequence.Means.OTHER_WIRES, List.of(), List.of()));
        }
        if (!relay(net, tried, depth, moves)) {
            return Optional.empty();
        }
        ground.become(tried);
        List<Edit> edits = new ArrayList<>();
        List<Shift> shifts = new ArrayList<>();
        moves.trees.forEach(
                (id, tree) -> {
                    Net moved = design.nets().get(id);
                    edits.add(new Edit.LayNet(moved.name(), tree));
                    if (moved.route().size() > 1) {
                        shifts.add(laying.shift(moved, tree, design::vertexOf));
                    }
                });
        return Optional.of(new Consequence.Movable(Consequence.Means.OTHER_WIRES, shifts, edits));
    }

    private boolean relay(Net net, Ground ground, int levels, Moves moves) {
        boolean stuck =
                laying.isStuck(net, ground, design::vertexOf)
                        || ground.isReserved(net.route().root())
                        || ground.wasMoved(net.id())
                        || net.id() == situation.net().id();
        if (stuck) {
            return false;
        }
        IntSet sinks = laying.reachedSinks(net, design::vertexOf);
        RouteTree kept = laying.keptPart(net, sinks, ground);
        // The blocked branches alone; then everything; then with others pushed aside.
        for (RouteTree base : List.of(kept, RouteTree.of(net.route().root()))) {
            Ground tried = ground.copy();
            laying.giveBack(net, base, tried);
            Optional<RouteTree> tree = laying.lay(base, sinks, tried);
            if (tree.isPresent()) {
                tried.noteMoved(net.id());
                ground.become(tried);
                moves.trees.put(net.id(), tree.get());
                return true;
            }
        }
        return levels > 0 && layPushing(net, kept, sinks, ground, levels, moves);
    }

    /** Lays a net over wires of others, which are laid elsewhere in turn. */
    private boolean layPushing(
            Net net, RouteTree kept, IntSet sinks, Ground ground, int levels, Moves moves) {
        Ground tried = ground.copy();
        laying.giveBack(net, kept, tried);
        Optional<GrowingNet> started = laying.startFrom(kept, sinks, tried);
        if (started.isEmpty()) {
            return false;
        }
        GrowingNet tree = started.get();
        IntSet pushed = new IntLinkedOpenHashSet();
        Pushing pushing = new Pushing(situation, net, tried);
        for (int sink : sinks) {
            if (tree.contains(sink)) {
                continue;
            }
            Optional<Path> found =
                    finder.find(
                            tree.starts(finder.corner()),
                            sink,
                            () -> pushing.waysTo(sink, tree.build()),
                            p -> laying.takePads(p, tried));
            if (found.isEmpty()) {
                return false;
            }
            Path path = found.get();
            for (int i = 1; i < path.size(); i++) {
                int holder = pushing.heldBy(path.vertex(i), sink);
                if (holder != Fabric.NOTHING) {
                    pushed.add(holder);
                }
            }
            tree.addReserved(path, tried);
        }
        tried.noteMoved(net.id());
        Moves more = new Moves();
        more.trees.put(net.id(), tree.build());
        for (int other : pushed) {
            boolean away = tried.wasMoved(other);
            if (!away && !relay(design.nets().get(other), tried, levels - 1, more)) {
                return false;
            }
        }
        ground.become(tried);
        moves.trees.putAll(more.trees);
        return true;
    }
}
