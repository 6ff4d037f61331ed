package padward.unblock.release;

import it.unimi.dsi.fastutil.ints.IntLinkedOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import it.unimi.dsi.fastutil.ints.IntSets;
import java.util.Optional;
import java.util.function.LongPredicate;
import java.util.stream.IntStream;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Locks;
import padward.design.Net;
import padward.design.Occupancy;
import padward.design.Occupant;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKey;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.SiteView;
import padward.fabric.SwitchGroups;
import padward.fabric.VertexKind;
import padward.route.cost.BlockedVertices;
import padward.route.cost.BlockedVerticesDraft;
import padward.route.cost.CostModel;
import padward.route.cost.FreeOnlyCost;
import padward.route.cost.ObstacleCost;
import padward.route.cost.SwitchRule;
import padward.route.cost.SwitchRuleCost;
import padward.route.search.VertexPath;

/**
 * What a breakout of one net may use, in three kinds: free vertices; vertices used by occupants
 * that could be removed; vertices closed at any price, because they belong to the net itself, to
 * the cell that drives it or to what is locked, or are unusable. Kept as differences from the
 * design's occupancy: O(net's tree).
 */
public final class QuestionContext {
    /** No switch, where one is returned as an {@link EdgeKey}. */
    public static final long NO_SWITCH = -1;

    private final OwnNet own;
    private final Design design;
    private final Net net;
    private final Optional<DisconnectedBranch> given;
    private final Occupancy occupancy;
    private final SwitchGroups groups;
    private final Locks locks;

    /** Closed by this question, besides what its net closes. */
    private final IntSet closedHere = new IntOpenHashSet();

    private final IntSet disconnected = new IntOpenHashSet();

    /** The vertex of the pad while nets switch its driver, and these. */
    private int switchedPad = Fabric.NOTHING;

    private final IntSet switchingNets = new IntLinkedOpenHashSet();

    /** The vertex of the pad while a net starts there beside one that comes to it, and that net. */
    private int readPad = Fabric.NOTHING;

    private int readingNet = Fabric.NOTHING;

    /**
     * The situation of a net that is to come out on a pad, which a port may lose. Nothing of it may
     * come to the enable of the pad's driver; while another net does, the pad counts as used by
     * that.
     */
    public QuestionContext(
            Design design, Net net, Optional<DisconnectedBranch> disconnected, Pad pad) {
        this(OwnNet.of(design, net), disconnected, pad);
    }

    /** The same for a net of which all that does not depend on the pad is known. */
    public QuestionContext(OwnNet own, Optional<DisconnectedBranch> disconnected, Pad pad) {
        this(own, disconnected);
        occupancy
                .findNetStartingBeside(pad.vertex())
                .filter(n -> n.id() != net.id())
                .ifPresent(
                        n -> {
                            readPad = pad.vertex();
                            readingNet = n.id();
                        });
        if (pad.enableSite() == Fabric.NOTHING) {
            return;
        }
        SiteView site = design.fabric().site(pad.enableSite());
        for (int pin = 0; pin < site.pins().size(); pin++) {
            int vertex = site.firstPin() + pin;
            Optional<Net> there = occupancy.findNetOn(vertex);
            boolean other =
                    there.isPresent()
                            && there.get().id() != net.id()
                            && !this.disconnected.contains(vertex)
                            && !goesWithCell(design, there.get(), vertex, pad.enableSite());
            if (other) {
                switchedPad = pad.vertex();
                switchingNets.add(there.get().id());
            }
            closedHere.add(vertex);
        }
    }

    /** Whether a net is at a pin as an end of the cell there, and goes with that. */
    private static boolean goesWithCell(Design design, Net net, int vertex, int site) {
        Optional<Cell> cell = design.occupancy().findCellOn(site);
        if (cell.isEmpty()) {
            return false;
        }
        if (net.driverCell() == cell.get().id()) {
            return true;
        }
        SiteView view = design.fabric().site(site);
        String pin = view.pins().get(vertex - view.firstPin()).name();
        return view.findPin(pin) == vertex
                && net.sinks().contains(new Terminal.CellPin(cell.get().id(), pin))
                && isLeaf(design, net, vertex);
    }

    private static boolean isLeaf(Design design, Net net, int vertex) {
        EdgeCursor edges = design.fabric().edgesOut();
        edges.reset(vertex);
        boolean leadsOn = false;
        while (edges.next() && !leadsOn) {
            leadsOn = isOn(design, net, edges.other());
        }
        if (!leadsOn) {
            // So of a tree of hundreds of thousands, only those that may go on are looked through.
            return true;
        }
        RouteTree tree = net.route();
        int at = tree.placeOf(vertex);
        return IntStream.range(at + 1, tree.size()).noneMatch(p -> tree.parent(p) == at);
    }

    /** The situation of a net when a port loses its pad, or none does. */
    public QuestionContext(Design design, Net net, Optional<DisconnectedBranch> disconnected) {
        this(OwnNet.of(design, net), disconnected);
    }

    /** The same for a net of which all that does not depend on the pad is known. */
    public QuestionContext(OwnNet own, Optional<DisconnectedBranch> disconnected) {
        this.own = own;
        this.design = own.design();
        this.net = own.net();
        this.given = disconnected;
        this.occupancy = design.occupancy();
        this.groups = design.fabric().switchGroups();
        this.locks = design.locks();
        disconnected.ifPresent(l -> this.disconnected.addAll(l.allVertices()));
    }

    /** The net to be brought out, with what does not depend on the pad. */
    public OwnNet own() {
        return own;
    }

    /** The design. */
    public Design design() {
        return design;
    }

    /** The net to be brought out. */
    public Net net() {
        return net;
    }

    /** What is disconnected with the port on the pad. */
    public Optional<DisconnectedBranch> disconnected() {
        return given;
    }

    /**
     * Closes the pads that a route goes through before it reaches another, which it would drive as
     * well. Routes like that are rare, so pads are not closed before one turns up.
     *
     * @return whether there are such pads, closed before or not: then the search has to be done
     *     again
     */
    public boolean closePadsPassed(VertexPath path) {
        boolean any = false;
        for (int i = 1; i < path.size() - 1; i++) {
            if (design.fabric().kind(path.vertex(i)) == VertexKind.PAD) {
                closedHere.add(path.vertex(i));
                any = true;
            }
        }
        return any;
    }

    /**
     * The vertices that nothing can make usable in this question, as a copy. Those of {@link
     * Locks#closed}, which every question has, may be missing. O(size of the net's tree).
     */
    public IntSet closedVertices() {
        IntSet result = new IntOpenHashSet(own.beside());
        result.removeAll(disconnected);
        result.addAll(own.closed());
        result.addAll(closedHere);
        return result;
    }

    /**
     * The IO register site of the pad's enable while a net switches it, or {@link Fabric#NOTHING}.
     */
    public int switchedSite() {
        return isSwitched()
                ? design.fabric().findPadAt(switchedPad).orElseThrow().enableSite()
                : Fabric.NOTHING;
    }

    /** The numbers of the nets that switch the driver of the pad. */
    public IntSet switchingNets() {
        return switchingNets;
    }

    /** The vertex of the pad while a net switches its driver, or {@link Fabric#NOTHING}. */
    int switchedPad() {
        return switchedPad;
    }

    /** Whether a vertex is the pad whose driver a net switches. */
    public boolean isSwitchedPad(int vertex) {
        return vertex == switchedPad && vertex != Fabric.NOTHING;
    }

    /**
     * Pins that nothing can make usable only because the net itself passes through their sites.
     * O(their number).
     */
    public IntSet closedByOwnPassThrough() {
        IntSet result = new IntOpenHashSet(own.beside());
        result.removeAll(disconnected);
        result.removeAll(closedHere);
        result.removeIf(locks.closed()::get);
        return result;
    }

    /** Whether nothing can make the vertex usable. */
    public boolean isClosed(int vertex) {
        return closedHere.contains(vertex)
                || own.closed().contains(vertex)
                || own.beside().contains(vertex) && !disconnected.contains(vertex)
                || locks.closed().get(vertex);
    }

    /** Whether the vertex is used by an occupant that has not been disconnected from it. */
    public boolean isUsed(int vertex) {
        return vertex == switchedPad
                || vertex == readPad
                || occupancy.isOccupied(vertex) && !disconnected.contains(vertex);
    }

    /** Whether a net switches the driver of the pad, and must go before that shows anything. */
    public boolean isSwitched() {
        return switchedPad != Fabric.NOTHING;
    }

    /** Whether nets use the pad in another way than that one comes to it over wires. */
    public boolean isPadUsedOtherwise() {
        return isSwitched() || readPad != Fabric.NOTHING;
    }

    /** Blocks the pad where it is used although no net comes to it. */
    private void blockPad(BlockedVerticesDraft blocked) {
        if (isSwitched()) {
            blocked.block(switchedPad);
        }
        if (readPad != Fabric.NOTHING) {
            blocked.block(readPad);
        }
    }

    /** Whether a route, after its start, enters what nothing can make usable. */
    public boolean isClosedTo(VertexPath path) {
        for (int i = 1; i < path.size(); i++) {
            if (isClosed(path.vertex(i))) {
                return true;
            }
        }
        return false;
    }

    /** Routes over what is free. */
    public CostModel overFree() {
        return overFreeAnd(IntSets.EMPTY_SET, edge -> false);
    }

    /**
     * Routes over what is free, and over vertices that are used now but will be free.
     *
     * @param isOff whether a switch that is on now, as an {@link EdgeKey}, will be off
     */
    public CostModel overFreeAnd(IntSet freed, LongPredicate isOff) {
        BlockedVerticesDraft blocked = own.occupied();
        freeOpen(disconnected, blocked);
        blockPad(blocked);
        freeOpen(freed, blocked);
        return obeying(
                new FreeOnlyCost(blocked.blockAll(closedHere).toVertices()),
                (from, to) -> {
                    long other = excluding(from, to);
                    boolean free =
                            other == NO_SWITCH
                                    || isOff.test(other) && switchUser(from, to) != net.id();
                    return free ? 0 : CostModel.CLOSED;
                });
    }

    private void freeOpen(IntSet vertices, BlockedVerticesDraft blocked) {
        for (int vertex : vertices) {
            if (!isClosed(vertex)) {
                blocked.free(vertex);
            }
        }
    }

    /** Routes over everything that could be removed, at a price. */
    public CostModel atAPrice() {
        BlockedVerticesDraft draft = BlockedVerticesDraft.of(occupancy).freeAll(disconnected);
        blockPad(draft);
        BlockedVertices used = draft.toVertices();
        return obeying(
                new ObstacleCost(closed(), used, this::removableAt),
                (from, to) -> {
                    int user = switchUser(from, to);
                    if (stays(user)) {
                        return CostModel.CLOSED;
                    }
                    boolean paid =
                            user == Fabric.NOTHING
                                    || user == obstacleAt(from)
                                    || user == obstacleAt(to);
                    return paid ? 0 : ObstacleCost.PRICE;
                });
    }

    /** Routes over all that is not closed at any price, whoever uses it. */
    public CostModel overAll() {
        return obeying(
                new FreeOnlyCost(closed()),
                (from, to) -> stays(switchUser(from, to)) ? CostModel.CLOSED : 0);
    }

    /** Whether a net cannot be removed: that of the question, and a locked one. */
    private boolean stays(int user) {
        return user == net.id() || locks.keeps(user);
    }

    /** Whether nothing can turn on the switch between two vertices. */
    boolean isShut(int from, int to) {
        return hasSwitchGroups() && stays(switchUser(from, to));
    }

    private CostModel obeying(CostModel model, SwitchRule rule) {
        return groups.isEmpty() ? model : new SwitchRuleCost(model, rule);
    }

    /** Whether the fabric has switches that exclude each other. */
    public boolean hasSwitchGroups() {
        return !groups.isEmpty();
    }

    /**
     * The switch that is on and excludes the one between two vertices, as an {@link EdgeKey}, or
     * {@link #NO_SWITCH}. What the port loses with its pad is off. O(switches of its group).
     */
    public long excluding(int from, int to) {
        int group = groups.groupOf(from, to);
        if (group == Fabric.NOTHING) {
            return NO_SWITCH;
        }
        long edge = EdgeKey.of(from, to);
        for (long other : groups.switches(group)) {
            int end = EdgeKey.to(other);
            boolean on =
                    other != edge
                            && occupancy.isOccupied(end)
                            && !disconnected.contains(end)
                            && occupancy.findNetOver(EdgeKey.from(other), end).isPresent();
            if (on) {
                return other;
            }
        }
        return NO_SWITCH;
    }

    /**
     * The number of the net that has another switch of a switch's group on, or {@link
     * Fabric#NOTHING}. Where it is the question's own net, nothing can turn the switch on.
     */
    public int switchUser(int from, int to) {
        long other = excluding(from, to);
        return other == NO_SWITCH
                ? Fabric.NOTHING
                : occupancy.findNetOn(EdgeKey.to(other)).orElseThrow().id();
    }

    /** Vertices that may not be entered at any price. */
    public BlockedVertices closed() {
        IntSet open = new IntOpenHashSet(disconnected);
        open.retainAll(own.beside());
        open.removeIf(locks.closed()::get);
        return own.closedVertices().with(closedHere, open);
    }

    /**
     * The number of the cell on the IO register site of a pad's enable that could be removed, or
     * {@link Fabric#NOTHING}. While it can switch the driver off, nothing shows on the pad.
     */
    public int enableOccupant(Pad pad) {
        return enableOccupant(design, net, pad);
    }

    /** The same for a net of a design, of which nothing else has to be known. */
    public static int enableOccupant(Design design, Net net, Pad pad) {
        if (pad.enableSite() == Fabric.NOTHING) {
            return Fabric.NOTHING;
        }
        Optional<Cell> cell = design.occupancy().findCellOn(pad.enableSite());
        return cell.filter(c -> c.id() != net.driverCell())
                .map(c -> Occupant.ofCell(c.id()))
                .orElse(Fabric.NOTHING);
    }

    /** Whether the net's own driver or the net itself, which both stay, switches a pad's driver. */
    public static boolean isEnabledByItself(Net net, Design design, Pad pad) {
        if (pad.enableSite() == Fabric.NOTHING) {
            return false;
        }
        SiteView site = design.fabric().site(pad.enableSite());
        boolean ofDriver =
                design.occupancy()
                        .findCellOn(pad.enableSite())
                        .filter(c -> c.id() == net.driverCell())
                        .isPresent();
        return ofDriver
                || IntStream.range(site.firstPin(), site.firstPin() + site.pins().size())
                        .filter(pin -> isOn(design, net, pin))
                        .anyMatch(pin -> !goesWithCell(design, net, pin, pad.enableSite()));
    }

    private static boolean isOn(Design design, Net net, int vertex) {
        return design.occupancy().findNetOn(vertex).filter(n -> n.id() == net.id()).isPresent();
    }

    /**
     * Number of the occupant to be removed before the vertex can be used, or {@link
     * Fabric#NOTHING}.
     */
    public int obstacleAt(int vertex) {
        boolean blocking = isUsed(vertex) && !isClosed(vertex);
        return blocking ? removableAt(vertex) : Fabric.NOTHING;
    }

    /** The occupant of a used vertex; where that is the net's own driver, the net at its pin. */
    private int removableAt(int vertex) {
        boolean free = !occupancy.isOccupied(vertex) || disconnected.contains(vertex);
        if (vertex == readPad && free) {
            return readingNet;
        }
        if (vertex == switchedPad && free) {
            return switchingNets.iterator().nextInt();
        }
        int endingNet = Math.max(own.netAtDriver().get(vertex), locks.netAtPin(vertex));
        return endingNet == Fabric.NOTHING ? occupancy.occupantId(vertex) : endingNet;
    }
}
