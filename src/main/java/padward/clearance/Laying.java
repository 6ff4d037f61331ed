package padward.clearance;

import it.unimi.dsi.fastutil.ints.Int2ObjectOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntLinkedOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.Optional;
import padward.design.Branches;
import padward.design.Design;
import padward.design.Net;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;
import padward.route.FreeWays;
import padward.route.Path;
import padward.route.WayFinder;

/**
 * Lays nets of one design elsewhere, on a {@link Ground}: what of a net can stay, what it gives
 * back, and the new wires, sink by sink in the design's order, each by the quickest way at the
 * finder's corner. One object belongs to one thread.
 */
final class Laying {
    /** Nets with more sinks to be laid anew than this are not laid. */
    private static final int MOST_SINKS = 200;

    private final Design design;
    private final Situation situation;
    private final Fabric fabric;
    private final WayFinder finder;
    private final Steps steps;
    private final Int2ObjectOpenHashMap<HeldByNet> heldByNet = new Int2ObjectOpenHashMap<>();

    /**
     * @param situation the design and the net of the question, which stays as it is
     */
    Laying(Situation situation, WayFinder finder) {
        this.design = situation.design();
        this.situation = situation;
        this.fabric = design.fabric();
        this.finder = finder;
        this.steps = new Steps(fabric);
    }

    Situation situation() {
        return situation;
    }

    WayFinder finder() {
        return finder;
    }

    private HeldByNet held(int net) {
        return heldByNet.computeIfAbsent(net, n -> new HeldByNet(design, design.nets().get(n)));
    }

    /**
     * The ground on which a way has been reserved for the net of the question, and the site of the
     * pad's enable with it.
     *
     * @param tree the net's own wires, which stay, although freeing a cell may have let some go
     * @param enableSite the site, or {@link Fabric#NOTHING}
     */
    Ground groundFor(RouteTree tree, Path way, int enableSite) {
        Ground ground = new Ground(design.occupancy());
        for (int place = 0; place < tree.size(); place++) {
            ground.reserve(tree.vertex(place));
            boolean through =
                    place > 0
                            && steps.isThrough(tree.vertex(tree.parent(place)), tree.vertex(place));
            if (through) {
                steps.pinsOf(fabric.siteOf(tree.vertex(place))).forEach(ground::reserve);
            }
        }
        if (enableSite != Fabric.NOTHING) {
            steps.pinsOf(enableSite).forEach(ground::reserve);
        }
        for (int vertex : situation.closedVertices()) {
            ground.take(vertex);
        }
        for (int i = 1; i < way.size(); i++) {
            ground.reserve(way.vertex(i));
            if (steps.isThrough(way.vertex(i - 1), way.vertex(i))) {
                steps.pinsOf(fabric.siteOf(way.vertex(i))).forEach(ground::reserve);
            }
        }
        return ground;
    }

    /** Whether an end of a net lies where the new way will be. */
    boolean isStuck(Net net, Ground ground, Ends ends) {
        return net.sinks().stream().anyMatch(s -> ground.isReserved(ends.vertexOf(s)));
    }

    /** The sinks that a net reaches now; one that it does not reach stays so. */
    IntSet reachedSinks(Net net, Ends ends) {
        IntSet result = new IntLinkedOpenHashSet();
        for (Terminal sink : net.sinks()) {
            if (held(net.id()).placeOf(design.vertexOf(sink)) != Fabric.NOTHING) {
                result.add(ends.vertexOf(sink));
            }
        }
        return result;
    }

    /** The part of a net's tree that need not be laid anew, without stubs. */
    RouteTree keptPart(Net net, IntSet sinks, Ground ground) {
        RouteTree tree = net.route();
        HeldByNet held = held(net.id());
        boolean[] cut = new boolean[tree.size()];
        for (int place = 1; place < tree.size(); place++) {
            boolean siteTaken =
                    held.goesThroughInto(place)
                            && steps.pinsOf(fabric.siteOf(tree.vertex(place)))
                                    .intStream()
                                    .anyMatch(ground::isReserved);
            cut[place] =
                    cut[tree.parent(place)] || ground.isReserved(tree.vertex(place)) || siteTaken;
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
        return Branches.without(tree, gone);
    }

    /** Gives back what a net holds beyond the part that it keeps. */
    void giveBack(Net net, RouteTree kept, Ground ground) {
        IntSet stays = new IntOpenHashSet();
        for (int place = 0; place < kept.size(); place++) {
            stays.add(kept.vertex(place));
            if (place > 0 && steps.isThrough(kept.vertex(kept.parent(place)), kept.vertex(place))) {
                stays.addAll(steps.pinsOf(fabric.siteOf(kept.vertex(place))));
            }
        }
        for (int vertex : held(net.id()).vertices()) {
            boolean itsOwn = design.occupancy().occupantId(vertex) == net.id();
            if (itsOwn && !stays.contains(vertex) && !ground.isNew(vertex)) {
                ground.release(vertex);
            }
        }
    }

    /** A net that grows from what it keeps; empty when it is too much work to lay the rest. */
    Optional<GrowingNet> startFrom(RouteTree base, IntSet sinks, Ground ground) {
        GrowingNet tree = new GrowingNet(fabric, steps, base);
        if (sinks.intStream().filter(s -> !tree.contains(s)).count() > MOST_SINKS) {
            return Optional.empty();
        }
        tree.layBase(ground);
        return Optional.of(tree);
    }

    /** Lays what is missing of a net; takes it from the ground. Empty when a sink is shut off. */
    Optional<RouteTree> lay(RouteTree base, IntSet sinks, Ground ground) {
        Optional<GrowingNet> started = startFrom(base, sinks, ground);
        if (started.isEmpty()) {
            return Optional.empty();
        }
        GrowingNet tree = started.get();
        for (int sink : sinks) {
            if (!tree.contains(sink)) {
                Optional<Path> path =
                        finder.find(
                                tree.starts(finder.corner()),
                                sink,
                                () -> new FreeWays(ground.takenBut(sink)),
                                p -> takePads(p, ground));
                if (path.isEmpty()) {
                    return Optional.empty();
                }
                tree.add(path.get(), ground);
            }
        }
        return Optional.of(tree.build());
    }

    /** Takes the pads that a path goes through, which it must not drive; whether there are any. */
    boolean takePads(Path path, Ground ground) {
        boolean any = false;
        for (int i = 1; i < path.size() - 1; i++) {
            if (fabric.kind(path.vertex(i)) == VertexKind.PAD) {
                any = true;
                ground.lay(path.vertex(i));
            }
        }
        return any;
    }

    /** What it means for a net to lie elsewhere. */
    Shift shift(Net net, RouteTree after, Ends endsAfter) {
        return Shift.of(design, net, held(net.id()), after, endsAfter);
    }
}
