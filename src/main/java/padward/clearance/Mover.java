package padward.clearance;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.Int2ObjectOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntLinkedOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.concurrent.CancellationException;
import padward.base.Progress;
import padward.design.Branches;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Edit;
import padward.design.Net;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.Corner;
import padward.fabric.Delay;
import padward.fabric.Fabric;
import padward.fabric.SitePin;
import padward.fabric.SiteView;
import padward.fabric.VertexKind;
import padward.route.FreeWays;
import padward.route.Path;
import padward.route.PathSearch;
import padward.route.SearchOutcome;
import padward.route.TwoEnded;
import padward.timing.TreeDelays;

/**
 * Finds out whether what stands on a way can make room: really lays nets elsewhere, on a {@link
 * Ground} of its own. First only the blocked branches of a net are laid anew, then the whole net;
 * if that fails too, other nets are pushed aside to the depth allowed, and laid elsewhere in turn.
 * Nets are laid sink by sink, in the design's order, each by the quickest way at the corner.
 *
 * <p>Works on a design in which everything that is to be freed has been freed already.
 */
final class Mover {
    private static final int SITES_TRIED = 6;

    /** Nets with more sinks to be laid anew than this are not moved. */
    private static final int MOST_SINKS = 200;

    private final Design design;
    private final Net own;
    private final Situation situation;
    private final Fabric fabric;
    private final Int2ObjectOpenHashMap<HeldByNet> heldByNet = new Int2ObjectOpenHashMap<>();
    private final PathSearch search;
    private final Corner corner;
    private final int depth;
    private final Progress progress;
    private final Steps steps;

    /**
     * @param own the net of the question, which stays as it is
     * @param depth how deep other nets may be pushed aside
     */
    Mover(Design design, Net own, PathSearch search, Corner corner, int depth, Progress progress) {
        this.design = design;
        this.own = own;
        this.situation = new Situation(design, own, Optional.empty());
        this.fabric = design.fabric();
        this.search = search;
        this.corner = corner;
        this.depth = depth;
        this.progress = progress;
        this.steps = new Steps(fabric);
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
                isStuck(net, ground, design::vertexOf) || ground.isReserved(net.route().root());
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
                        shifts.add(shift(moved, moved.route(), tree, design::vertexOf));
                    }
                });
        return Optional.of(new Consequence.Movable(Consequence.Means.OTHER_WIRES, shifts, edits));
    }

    private boolean relay(Net net, Ground ground, int levels, Moves moves) {
        boolean stuck =
                isStuck(net, ground, design::vertexOf)
                        || ground.isReserved(net.route().root())
                        || ground.wasMoved(net.id())
                        || net.id() == own.id();
        if (stuck) {
            return false;
        }
        IntSet sinks = sinkVertices(net, design::vertexOf);
        RouteTree kept = keptPart(net, sinks, ground);
        // The blocked branches alone; then everything; then with others pushed aside.
        for (RouteTree base : List.of(kept, RouteTree.of(net.route().root()))) {
            Ground tried = ground.copy();
            giveBack(net, base, tried);
            Optional<RouteTree> tree = lay(base, sinks, tried);
            if (tree.isPresent()) {
                tried.noteMoved(net.id());
                ground.become(tried);
                moves.trees.put(net.id(), tree.get());
                return true;
            }
        }
        return levels > 0 && layPushing(net, kept, sinks, ground, levels, moves);
    }

    /** Whether an end of a net lies where the new way will be. */
    private boolean isStuck(Net net, Ground ground, Ends ends) {
        return net.sinks().stream().anyMatch(s -> ground.isReserved(ends.vertexOf(s)));
    }

    /** The sinks that a net reaches now; one that it does not reach stays so. */
    private IntSet sinkVertices(Net net, Ends ends) {
        IntSet result = new IntLinkedOpenHashSet();
        for (Terminal sink : net.sinks()) {
            if (held(net.id()).placeOf(design.vertexOf(sink)) != Fabric.NOTHING) {
                result.add(ends.vertexOf(sink));
            }
        }
        return result;
    }

    /** The part of a net's tree that need not be laid anew, without stubs. */
    private RouteTree keptPart(Net net, IntSet sinks, Ground ground) {
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
    private void giveBack(Net net, RouteTree kept, Ground ground) {
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

    /** Lays what is missing of a net; takes it from the ground. Empty when a sink is shut off. */
    private Optional<RouteTree> lay(RouteTree base, IntSet sinks, Ground ground) {
        GrowingNet tree = new GrowingNet(fabric, steps, base);
        if (sinks.intStream().filter(s -> !tree.contains(s)).count() > MOST_SINKS) {
            return Optional.empty();
        }
        tree.layBase(ground);
        for (int sink : sinks) {
            if (!tree.contains(sink)) {
                SearchOutcome outcome = wayTo(tree, sink, ground);
                if (!(outcome instanceof SearchOutcome.Found found)) {
                    return Optional.empty();
                }
                tree.add(found.path(), ground);
            }
        }
        return Optional.of(tree.build());
    }

    private SearchOutcome wayTo(GrowingNet tree, int sink, Ground ground) {
        while (true) {
            SearchOutcome outcome =
                    TwoEnded.run(
                            search,
                            fabric,
                            tree.starts(corner),
                            sink,
                            corner,
                            new FreeWays(ground.takenBut(sink)),
                            progress);
            if (progress.cancelled()) {
                throw new CancellationException("stopped on request");
            }
            if (!(outcome instanceof SearchOutcome.Found found)
                    || !takePads(found.path(), ground)) {
                return outcome;
            }
        }
    }

    /** Takes the pads that a path goes through, which it must not drive; whether there are any. */
    private boolean takePads(Path path, Ground ground) {
        boolean any = false;
        for (int i = 1; i < path.size() - 1; i++) {
            if (fabric.kind(path.vertex(i)) == VertexKind.PAD) {
                any = true;
                ground.lay(path.vertex(i));
            }
        }
        return any;
    }

    /** Lays a net over wires of others, which are laid elsewhere in turn. */
    private boolean layPushing(
            Net net, RouteTree kept, IntSet sinks, Ground ground, int levels, Moves moves) {
        Ground tried = ground.copy();
        giveBack(net, kept, tried);
        GrowingNet tree = new GrowingNet(fabric, steps, kept);
        if (sinks.intStream().filter(s -> !tree.contains(s)).count() > MOST_SINKS) {
            return false;
        }
        tree.layBase(tried);
        IntSet pushed = new IntLinkedOpenHashSet();
        Pushing pushing = new Pushing(situation, net, tried);
        for (int sink : sinks) {
            if (tree.contains(sink)) {
                continue;
            }
            SearchOutcome outcome;
            do {
                outcome =
                        TwoEnded.run(
                                search,
                                fabric,
                                tree.starts(corner),
                                sink,
                                corner,
                                pushing.waysTo(sink, tree.build()),
                                progress);
            } while (outcome instanceof SearchOutcome.Found f && takePads(f.path(), tried));
            if (!(outcome instanceof SearchOutcome.Found found)) {
                return false;
            }
            for (int i = 1; i < found.path().size(); i++) {
                int holder = pushing.heldBy(found.path().vertex(i), sink);
                if (holder != Fabric.NOTHING) {
                    pushed.add(holder);
                }
            }
            tree.addReserved(found.path(), tried);
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

    /** Where the ends of a net are. */
    private interface Ends {
        int vertexOf(Terminal terminal);
    }

    private Shift shift(Net net, RouteTree before, RouteTree after, Ends endsAfter) {
        TreeDelays old = TreeDelays.of(fabric, before);
        TreeDelays fresh = TreeDelays.of(fabric, after);
        String worst = "";
        Delay worstBefore = Delay.ZERO;
        Delay worstAfter = Delay.ZERO;
        int most = Integer.MIN_VALUE;
        int latestBefore = 0;
        int latestAfter = 0;
        Int2IntOpenHashMap placeAfter = new Int2IntOpenHashMap();
        placeAfter.defaultReturnValue(Fabric.NOTHING);
        for (int place = 0; place < after.size(); place++) {
            placeAfter.put(after.vertex(place), place);
        }
        for (Terminal sink : net.sinks()) {
            int placeBefore = held(net.id()).placeOf(design.vertexOf(sink));
            int now = placeAfter.get(endsAfter.vertexOf(sink));
            if (placeBefore == Fabric.NOTHING || now == Fabric.NOTHING) {
                continue;
            }
            Delay one = old.at(placeBefore);
            Delay other = fresh.at(now);
            latestBefore = Math.max(latestBefore, one.slowPs());
            latestAfter = Math.max(latestAfter, other.slowPs());
            if (other.slowPs() - one.slowPs() > most) {
                most = other.slowPs() - one.slowPs();
                worst = design.textOf(sink);
                worstBefore = one;
                worstAfter = other;
            }
        }
        return new Shift(
                net.name(),
                worst,
                worstBefore,
                worstAfter,
                slack(net, latestBefore),
                slack(net, latestAfter));
    }

    private static OptionalInt slack(Net net, int latest) {
        return net.requiredPs().isPresent()
                ? OptionalInt.of(net.requiredPs().getAsInt() - latest)
                : OptionalInt.empty();
    }

    /**
     * Lets a signal through a cell's site, when the fabric has a path there that the cell's own
     * nets leave alone.
     *
     * @param onWay the pins of the site that the way passes
     */
    Optional<Consequence.Movable> letThrough(Cell cell, List<Integer> onWay) {
        if (cell.letsThrough() || isAtEnable(cell)) {
            return Optional.empty();
        }
        IntSet own = new IntOpenHashSet();
        for (Net net : design.netsAt(cell.id())) {
            for (Terminal end : net.ends()) {
                if (end instanceof Terminal.CellPin at && at.cell() == cell.id()) {
                    own.add(design.vertexOf(end));
                }
            }
        }
        boolean allUnused =
                onWay.stream()
                        .allMatch(v -> fabric.siteOf(v) == cell.site() && !own.contains((int) v));
        return allUnused && !onWay.isEmpty()
                ? Optional.of(
                        new Consequence.Movable(
                                Consequence.Means.LET_THROUGH,
                                List.of(),
                                List.of(new Edit.SetCell(cell.name(), "through", "open"))))
                : Optional.empty();
    }

    /**
     * Moves a cell to a free site of its kind nearby, and lays its nets there.
     *
     * @param ground changed when the move succeeds, left alone when it fails
     */
    Optional<Consequence.Movable> moveCell(Cell cell, Ground ground) {
        boolean bound =
                design.netsAt(cell.id()).stream().anyMatch(n -> n.id() == own.id())
                        || isAtEnable(cell);
        if (bound) {
            return Optional.empty();
        }
        SiteView from = fabric.site(cell.site());
        for (int site : nearestFreeSites(cell, from, ground)) {
            Ground tried = ground.copy();
            Optional<Consequence.Movable> moved = moveCell(cell, from, fabric.site(site), tried);
            if (moved.isPresent()) {
                ground.become(tried);
                return moved;
            }
        }
        return Optional.empty();
    }

    /** Whether a cell switches some pad's driver, which only this site can. */
    private boolean isAtEnable(Cell cell) {
        return fabric.pads().stream().anyMatch(p -> p.enableSite() == cell.site());
    }

    private List<Integer> nearestFreeSites(Cell cell, SiteView from, Ground ground) {
        List<Integer> result = new ArrayList<>();
        int x = fabric.column(from.tile());
        int y = fabric.row(from.tile());
        int reach = Math.max(fabric.columns(), fabric.rows());
        for (int ring = 0; ring <= reach && result.size() < SITES_TRIED; ring++) {
            for (int dy = -ring; dy <= ring; dy++) {
                int step = Math.abs(dy) == ring ? 1 : Math.max(1, 2 * ring);
                for (int dx = -ring; dx <= ring; dx += step) {
                    addFreeSites(cell, from, x + dx, y + dy, ground, result);
                }
            }
        }
        return result;
    }

    private void addFreeSites(
            Cell cell, SiteView from, int x, int y, Ground ground, List<Integer> result) {
        if (x < 0 || y < 0 || x >= fabric.columns() || y >= fabric.rows()) {
            return;
        }
        int tile = y * fabric.columns() + x;
        for (int site = fabric.firstSite(tile); site < fabric.firstSite(tile + 1); site++) {
            SiteView view = fabric.site(site);
            List<String> names = from.pins().stream().map(SitePin::name).toList();
            boolean fits =
                    view.accepts().contains(cell.kind())
                            && view.pins().stream().map(SitePin::name).toList().equals(names)
                            && steps.pinsOf(site).intStream().noneMatch(ground::isTaken)
                            && design.occupancy().findCellOn(site).isEmpty();
            if (fits && result.size() < SITES_TRIED) {
                result.add(site);
            }
        }
    }

    private Optional<Consequence.Movable> moveCell(
            Cell cell, SiteView from, SiteView to, Ground ground) {
        for (int pin = 0; pin < from.pins().size(); pin++) {
            int old = from.firstPin() + pin;
            if (design.occupancy().occupantId(old) == design.nets().size() + cell.id()) {
                ground.release(old);
            }
            ground.lay(to.firstPin() + pin);
        }
        Ends after =
                end ->
                        end instanceof Terminal.CellPin at && at.cell() == cell.id()
                                ? to.findPin(at.pin())
                                : design.vertexOf(end);
        List<Net> nets =
                design.netsAt(cell.id()).stream().sorted(Comparator.comparing(Net::id)).toList();
        List<Edit.LayNet> laid = new ArrayList<>();
        List<Shift> shifts = new ArrayList<>();
        for (Net net : nets) {
            if (ground.wasMoved(net.id()) || isStuck(net, ground, after)) {
                return Optional.empty();
            }
            IntSet sinks = sinkVertices(net, after);
            int root = after.vertexOf(net.driver());
            RouteTree kept =
                    root == net.route().root() ? keptPart(net, sinks, ground) : RouteTree.of(root);
            giveBack(net, kept, ground);
            Optional<RouteTree> tree = lay(kept, sinks, ground);
            if (tree.isEmpty()) {
                return Optional.empty();
            }
            ground.noteMoved(net.id());
            laid.add(new Edit.LayNet(net.name(), tree.get()));
            if (net.route().size() > 1) {
                shifts.add(shift(net, net.route(), tree.get(), after));
            }
        }
        return Optional.of(
                new Consequence.Movable(
                        Consequence.Means.OTHER_SITE,
                        shifts,
                        List.of(new Edit.MoveCell(cell.name(), to.name(), laid))));
    }
}
