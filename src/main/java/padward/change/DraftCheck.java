package padward.change;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.Int2LongOpenHashMap;
import it.unimi.dsi.fastutil.ints.Int2ObjectOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.NetLock;
import padward.design.Occupancy;
import padward.design.Occupant;
import padward.design.Port;
import padward.design.PortDirection;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKey;
import padward.fabric.EdgeKind;
import padward.fabric.EnableSites;
import padward.fabric.Fabric;
import padward.fabric.SiteView;
import padward.fabric.SwitchGroups;

/**
 * Looks whether what edits put can stand where they put it: switches are there, nets still begin at
 * their drivers and reach what they reached, and no vertex or site is used twice. Only what changes
 * is looked at; and whether what is locked stays as it was. O(wires and ends of the nets that
 * change + pins of the sites that they touch).
 */
final class DraftCheck {
    private final Draft draft;
    private final Design base;
    private final Occupancy before;
    private final Fabric fabric;

    /** Vertices that a net has now and had not before, with the net. */
    private final Int2IntOpenHashMap newOn = new Int2IntOpenHashMap();

    /** Vertices of the nets that change, made when a net is asked for. */
    private final Int2ObjectOpenHashMap<IntSet> nowOn = new Int2ObjectOpenHashMap<>();

    /** Sites that nets go through now and did not before. */
    private final Int2IntOpenHashMap newThrough = new Int2IntOpenHashMap();

    private final Int2IntOpenHashMap cellsNow = new Int2IntOpenHashMap();
    private final SwitchGroups groups;

    /** For each switch group of which a net that changes has a switch on: that switch. */
    private final Int2LongOpenHashMap onInGroup = new Int2LongOpenHashMap();

    DraftCheck(Draft draft) {
        this.draft = draft;
        this.base = draft.before();
        this.before = base.occupancy();
        this.fabric = draft.fabric();
        this.groups = fabric.switchGroups();
        newOn.defaultReturnValue(Fabric.NOTHING);
        newThrough.defaultReturnValue(Fabric.NOTHING);
        cellsNow.defaultReturnValue(Fabric.NOTHING);
    }

    /** Tells the draft what stands against it. */
    void run() {
        for (Cell cell : draft.cellsPut()) {
            if (cellsNow.put(cell.site(), cell.id()) != Fabric.NOTHING) {
                draft.refuse("two cells are put on " + fabric.site(cell.site()).described());
            }
            SiteView site = fabric.site(cell.site());
            boolean isNew =
                    base.cells().find(cell.id()).filter(c -> c.site() == cell.site()).isEmpty();
            if (isNew && fabric.unusable().isSite(cell.site())) {
                draft.refuse("site " + site.name() + " is unusable");
            }
            if (!site.accepts().contains(cell.kind())) {
                draft.refuse(site.described() + " does not accept cells of kind " + cell.kind());
            }
        }
        for (Net net : draft.netsPut()) {
            look(net);
        }
        newOn.int2IntEntrySet().forEach(e -> lookAt(e.getIntKey(), netOf(e.getIntValue())));
        newThrough
                .int2IntEntrySet()
                .forEach(e -> lookThrough(e.getIntKey(), netOf(e.getIntValue())));
        for (Cell cell : draft.cellsPut()) {
            look(cell);
            findTieAt(cell.site())
                    .ifPresent(p -> usedBy(tieOf(p), fabric.site(cell.site()).firstPin()));
        }
        for (Port port : draft.portsPut()) {
            lookAtTie(port);
        }
    }

    /** What is locked may leave and come back in one entry: the end is what counts. */
    void lookAtLocks() {
        for (Cell cell : draft.cellsPut()) {
            base.cells()
                    .find(cell.id())
                    .filter(old -> old.locked() && !old.equals(cell))
                    .ifPresent(old -> draft.refuse(Draft.lockOf(old)));
        }
        for (Net net : draft.netsPut()) {
            base.nets()
                    .find(net.id())
                    .filter(old -> !keepsLock(old, net))
                    .ifPresent(old -> draft.refuse(lockOf(old, net)));
        }
    }

    /** Whether a net keeps what is locked of it. */
    private static boolean keepsLock(Net before, Net after) {
        return switch (before.lock()) {
            case NONE -> true;
            case WHOLE -> after.equals(before);
            case WIRES -> extendsOnly(before, after);
        };
    }

    /** Whether a net has all that it had. */
    private static boolean extendsOnly(Net before, Net after) {
        return after.driver().equals(before.driver())
                && after.sinks().containsAll(before.sinks())
                && after.route().contains(before.route());
    }

    private static String lockOf(Net before, Net after) {
        boolean branch = before.lock() == NetLock.WHOLE && extendsOnly(before, after);
        return "net " + before.name() + " is locked" + (branch ? " and takes no branch" : "");
    }

    /** What is tied on is used by the tie: nothing else may switch the driver. */
    private void lookAtTie(Port port) {
        int site = fabric.pads().get(port.pad()).enableSite();
        if (!port.enableTied() || site == Fabric.NOTHING) {
            return;
        }
        SiteView view = fabric.site(site);
        Optional<Cell> cell = cellOn(site);
        cell.ifPresent(c -> usedBy("cell " + c.name(), view.firstPin()));
        for (int pin = 0; cell.isEmpty() && pin < view.pins().size(); pin++) {
            int vertex = view.firstPin() + pin;
            netOn(vertex).ifPresent(n -> usedBy("net " + n.name(), vertex));
        }
    }

    /** The port whose pad's enable is tied on at a site. */
    private Optional<Port> findTieAt(int site) {
        return EnableSites.of(fabric)
                .padsAt(site)
                .intStream()
                .mapToObj(draft::findPortOn)
                .flatMap(Optional::stream)
                .filter(Port::enableTied)
                .findFirst();
    }

    private static String tieOf(Port port) {
        return "the tied enable of port " + port.name();
    }

    private Net netOf(int number) {
        return draft.netNow(number).orElseThrow();
    }

    private void look(Net net) {
        RouteTree tree = net.route();
        Optional<Net> old = base.nets().find(net.id());
        Int2IntOpenHashMap parents = new Int2IntOpenHashMap();
        parents.defaultReturnValue(Fabric.NOTHING);
        old.ifPresent(o -> collect(o.route(), parents));
        if (tree.root() != draft.vertexOf(net.driver())) {
            draft.refuse("the new route of net " + net.name() + " does not start at its driver");
        }
        EdgeCursor edges = fabric.edgesOut();
        for (int place = 0; place < tree.size(); place++) {
            int vertex = tree.vertex(place);
            int from = place == 0 ? vertex : tree.vertex(tree.parent(place));
            if (!parents.containsKey(vertex)) {
                if (fabric.unusable().isVertex(vertex)) {
                    draft.refuse(fabric.vertexName(vertex) + " is unusable");
                }
                int other = newOn.put(vertex, net.id());
                if (other != Fabric.NOTHING && !shareThePad(vertex, netOf(other), net)) {
                    usedBy("net " + netOf(other).name(), vertex);
                }
            }
            if (place > 0 && groups.groupOf(from, vertex) != Fabric.NOTHING) {
                turnOn(from, vertex, parents.get(vertex) != from);
            }
            if (place > 0 && parents.get(vertex) != from) {
                Optional<EdgeKind> kind = kindOfEdge(edges, from, vertex);
                if (kind.isEmpty()) {
                    draft.refuse(
                            "no switch leads from "
                                    + fabric.vertexName(from)
                                    + " to "
                                    + fabric.vertexName(vertex));
                } else if (kind.get() == EdgeKind.PASS_THROUGH) {
                    int other = newThrough.put(fabric.siteOf(vertex), net.id());
                    if (other != Fabric.NOTHING && other != net.id()) {
                        usedBy("net " + netOf(other).name(), vertex);
                    }
                }
            }
        }
        lookAtSinks(old.map(Net::sinks).orElse(List.of()), parents, net);
    }

    /** A switch that is on: no other one of its group may be. */
    private void turnOn(int from, int to, boolean isNew) {
        int group = groups.groupOf(from, to);
        long edge = EdgeKey.of(from, to);
        boolean first = !onInGroup.containsKey(group);
        long other = onInGroup.put(group, edge);
        if (!first && other != edge) {
            excluded(from, to, other);
        }
        if (isNew) {
            for (long member : groups.switches(group)) {
                boolean on =
                        member != edge
                                && before.findNetOver(EdgeKey.from(member), EdgeKey.to(member))
                                        .filter(n -> !draft.isChangedNet(n.id()))
                                        .isPresent();
                if (on) {
                    excluded(from, to, member);
                }
            }
        }
    }

    private void excluded(int from, int to, long other) {
        draft.refuse(
                "the switches from "
                        + fabric.vertexName(from)
                        + " to "
                        + fabric.vertexName(to)
                        + " and from "
                        + fabric.vertexName(EdgeKey.from(other))
                        + " to "
                        + fabric.vertexName(EdgeKey.to(other))
                        + " cannot both be on: they are in switch group "
                        + groups.name(groups.groupOf(from, to)));
    }

    private static void collect(RouteTree tree, Int2IntOpenHashMap parents) {
        for (int place = 0; place < tree.size(); place++) {
            int vertex = tree.vertex(place);
            parents.put(vertex, place == 0 ? vertex : tree.vertex(tree.parent(place)));
        }
    }

    /** What a net reached before and still feeds, it must reach, and what is new to it. */
    private void lookAtSinks(List<Terminal> before, Int2IntOpenHashMap wasOn, Net net) {
        IntSet on = verticesOf(net.id());
        Set<Terminal> had = new HashSet<>(before);
        for (Terminal sink : net.sinks()) {
            boolean needed = !had.contains(sink) || wasOn.containsKey(vertexBefore(sink));
            if (needed && !on.contains(draft.vertexOf(sink))) {
                draft.refuse(
                        "the new route of net "
                                + net.name()
                                + " does not reach "
                                + draft.textOf(sink));
            }
        }
    }

    private int vertexBefore(Terminal end) {
        boolean there =
                end instanceof Terminal.CellPin at
                        ? base.cells().find(at.cell()).isPresent()
                        : base.ports().find(((Terminal.PortEnd) end).port()).isPresent();
        return there ? base.vertexOf(end) : Fabric.NOTHING;
    }

    private static Optional<EdgeKind> kindOfEdge(EdgeCursor edges, int from, int to) {
        edges.reset(from);
        while (edges.next()) {
            if (edges.other() == to) {
                return Optional.of(edges.kind());
            }
        }
        return Optional.empty();
    }

    /** A vertex that a net comes to: nothing else may be there, but the cell whose pin it is. */
    private void lookAt(int vertex, Net net) {
        netStayingOn(vertex)
                .filter(n -> !shareThePad(vertex, n, net))
                .ifPresent(n -> usedBy("net " + n.name(), vertex));
        netStartingBeside(vertex)
                .filter(n -> !shareThePad(vertex, n, net))
                .ifPresent(n -> usedBy("net " + n.name(), vertex));
        int site = fabric.siteOf(vertex);
        if (site == Fabric.NOTHING) {
            return;
        }
        findTieAt(site).ifPresent(p -> usedBy(tieOf(p), vertex));
        Optional<Cell> cell = cellOn(site);
        if (cell.isPresent()) {
            boolean own = endsAt(net, cell.get(), vertex);
            boolean passes = cell.get().letsThrough() && !isEnd(cell.get(), vertex);
            if (!own && !passes) {
                usedBy("cell " + cell.get().name(), vertex);
            }
        }
        boolean ownPin = cell.isPresent() && isEnd(cell.get(), vertex);
        if (!ownPin) {
            otherNetThrough(site, net.id()).ifPresent(n -> usedBy("net " + n.name(), vertex));
        }
    }

    /**
     * A site that a net goes through: no cell may stand there but one that lets it pass, and no
     * other net go through. It takes all pins that are free; a net that ends at one stays.
     */
    private void lookThrough(int site, Net net) {
        Optional<Cell> cell = cellOn(site);
        SiteView view = fabric.site(site);
        cell.filter(c -> !c.letsThrough())
                .ifPresent(c -> usedBy("cell " + c.name(), view.firstPin()));
        otherNetThrough(site, net.id()).ifPresent(n -> usedBy("net " + n.name(), view.firstPin()));
    }

    /** A cell on a site that is new to it, or with other settings. */
    private void look(Cell cell) {
        SiteView view = fabric.site(cell.site());
        before.findCellOn(cell.site())
                .filter(c -> c.id() != cell.id() && !draft.isChangedCell(c.id()))
                .ifPresent(c -> usedBy("cell " + c.name(), view.firstPin()));
        for (Net net : draft.netsAt(cell)) {
            for (String pin : draft.pinsAt(net, cell)) {
                if (view.findPin(pin) == Fabric.NOTHING) {
                    draft.refuse(view.described() + " has no pin " + pin);
                }
            }
        }
        for (int pin = 0; pin < view.pins().size(); pin++) {
            int vertex = view.firstPin() + pin;
            if (cell.letsThrough() && !isEnd(cell, vertex)) {
                continue;
            }
            netOn(vertex)
                    .filter(n -> !endsAt(n, cell, vertex) && !wereTogether(n, cell, vertex))
                    .ifPresent(n -> usedBy("net " + n.name(), vertex));
        }
        if (!cell.letsThrough()) {
            otherNetThrough(cell.site(), Fabric.NOTHING)
                    .ifPresent(n -> usedBy("net " + n.name(), view.firstPin()));
        }
    }

    /** Whether a net ended in the air at a pin of a cell before: then it may do so still. */
    private boolean wereTogether(Net net, Cell cell, int vertex) {
        return before.occupantId(vertex) == Occupant.ofCell(cell.id())
                && before.findNetOn(vertex).filter(n -> n.id() == net.id()).isPresent();
    }

    private void usedBy(String who, int vertex) {
        draft.refuse(fabric.vertexName(vertex) + " is used by " + who);
    }

    /** The net on a vertex when the edits are done. */
    private Optional<Net> netOn(int vertex) {
        int fresh = newOn.get(vertex);
        return fresh == Fabric.NOTHING ? netStayingOn(vertex) : draft.netNow(fresh);
    }

    /** The net that was on a vertex before and still is. */
    private Optional<Net> netStayingOn(int vertex) {
        return before.findNetOn(vertex)
                .flatMap(n -> draft.netNow(n.id()))
                .filter(n -> !draft.isChangedNet(n.id()) || verticesOf(n.id()).contains(vertex));
    }

    /** The net that starts at a pad beside one that comes there, unless it is removed. */
    private Optional<Net> netStartingBeside(int vertex) {
        return before.findNetStartingBeside(vertex).flatMap(n -> draft.netNow(n.id()));
    }

    /** Whether one net starts at the pad of a port in both directions and the other ends there. */
    private boolean shareThePad(int vertex, Net one, Net other) {
        boolean oneStarts = one.route().root() == vertex;
        boolean otherStarts = other.route().root() == vertex;
        return oneStarts != otherStarts
                && (oneStarts ? one : other).driver() instanceof Terminal.PortEnd at
                && draft.portNow(at.port())
                        .filter(p -> p.direction() == PortDirection.BOTH)
                        .isPresent();
    }

    private IntSet verticesOf(int net) {
        return nowOn.computeIfAbsent(net, n -> new IntOpenHashSet(netOf(n).route().toVertices()));
    }

    /** The net that goes through a site when the edits are done, unless it is a certain one. */
    private Optional<Net> otherNetThrough(int site, int but) {
        int fresh = newThrough.get(site);
        if (fresh != Fabric.NOTHING && fresh != but) {
            return draft.netNow(fresh);
        }
        SiteView view = fabric.site(site);
        EdgeCursor into = fabric.edgesIn();
        for (int pin = 0; pin < view.pins().size(); pin++) {
            int vertex = view.firstPin() + pin;
            Optional<Net> net = before.findNetOn(vertex).flatMap(n -> draft.netNow(n.id()));
            if (net.isEmpty() || net.get().id() == but) {
                continue;
            }
            int place = net.get().route().placeOf(vertex);
            if (place > 0 && entersBy(into, net.get().route(), place) == EdgeKind.PASS_THROUGH) {
                return net;
            }
        }
        return Optional.empty();
    }

    private static EdgeKind entersBy(EdgeCursor into, RouteTree tree, int place) {
        int from = tree.vertex(tree.parent(place));
        into.reset(tree.vertex(place));
        while (into.next()) {
            if (into.other() == from) {
                return into.kind();
            }
        }
        return EdgeKind.SWITCH;
    }

    /** The cell on a site when the edits are done. */
    private Optional<Cell> cellOn(int site) {
        int fresh = cellsNow.get(site);
        if (fresh != Fabric.NOTHING) {
            return draft.cellNow(fresh);
        }
        return before.findCellOn(site).filter(c -> !draft.isChangedCell(c.id()));
    }

    private boolean isEnd(Cell cell, int vertex) {
        return draft.netsAt(cell).stream().anyMatch(n -> endsAt(n, cell, vertex));
    }

    /** Whether a net ends at a pin of a cell's site. */
    private boolean endsAt(Net net, Cell cell, int vertex) {
        SiteView view = fabric.site(cell.site());
        String pin = view.pins().get(vertex - view.firstPin()).name();
        return draft.pinsAt(net, cell).contains(pin);
    }
}
