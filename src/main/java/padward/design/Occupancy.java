package padward.design;

import it.unimi.dsi.fastutil.ints.Int2IntMap;
import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import it.unimi.dsi.fastutil.ints.IntSets;
import java.util.BitSet;
import java.util.Optional;
import padward.base.Lazy;
import padward.base.PagedInts;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.SiteView;
import padward.fabric.Unusable;
import padward.fabric.VertexKind;

/**
 * What uses which vertex. Immutable: that of a design that was read is worked out once, that of a
 * design after an edit shares it and keeps the few vertices where it differs.
 *
 * <p>A cell uses all pins of its site, those that nets reach included: to remove the cell is to
 * free them. A net uses the vertices of its tree and, where it goes through a site, all pins of
 * that site. A cell that lets signals through uses only the pins that its own nets end at. Thus a
 * route is free exactly when its vertices are, and a pass-through needs no test of its own.
 *
 * <p>A vertex carries one net, but for the pad of a port in both directions: one net may come to it
 * and another one start there. The pad counts as used by the one that comes.
 *
 * <p>Occupants have numbers, see {@link Occupant}. What the fabric marks as unusable counts as
 * occupied, by nobody where nothing of the design is there.
 */
public final class Occupancy {
    private final Fabric fabric;
    private final Unusable unusable;
    private final Numbered<Cell> cells;
    private final Numbered<Net> nets;
    private final Lazy<NetsByEnd> netsByEnd;

    /** What the design that was read uses; shared by all that edits make of it. */
    private final Base base;

    /** Where this differs from {@link #base}: by vertex the occupant, or none. */
    private final Int2IntOpenHashMap occupantByVertex;

    private final Int2IntOpenHashMap netByVertex;
    private final Int2IntOpenHashMap cellBySite;

    /** Nets that start at a pad to which another net comes. */
    private final Int2IntOpenHashMap startingBeside;

    /**
     * Vertices that are occupied here and free in {@link #base}, or occupied there and free here.
     */
    private final IntOpenHashSet differing;

    /**
     * That of a design that was read.
     *
     * @param ownerOfPin by vertex the occupant of the pins of used sites; otherwise it is the net
     */
    private record Base(
            PagedInts ownerOfPin,
            PagedInts netByVertex,
            PagedInts cellBySite,
            Int2IntOpenHashMap startingBeside,
            BitSet occupied) {
        static Base of(Fabric fabric) {
            int vertices = fabric.vertexCount();
            return new Base(
                    new PagedInts(vertices),
                    new PagedInts(vertices),
                    new PagedInts(fabric.siteCount()),
                    table(),
                    new BitSet(vertices));
        }

        int occupant(int vertex) {
            int owner = ownerOfPin.get(vertex);
            if (owner != Fabric.NOTHING) {
                return owner;
            }
            int net = netByVertex.get(vertex);
            return net == Fabric.NOTHING ? Fabric.NOTHING : Occupant.ofNet(net);
        }
    }

    /**
     * Of a design that was read. O(wires + pins of used sites).
     *
     * @throws IllegalArgumentException when two nets share a vertex or two cells a site
     */
    Occupancy(Fabric fabric, Numbered<Cell> cells, Numbered<Net> nets, Lazy<NetsByEnd> netsByEnd) {
        this.fabric = fabric;
        this.cells = cells;
        this.nets = nets;
        this.netsByEnd = netsByEnd;
        this.base = Base.of(fabric);
        this.startingBeside = table();
        this.unusable = fabric.unusable();
        this.occupantByVertex = table();
        this.netByVertex = table();
        this.cellBySite = table();
        this.differing = new IntOpenHashSet();
        EdgeCursor edges = fabric.edgesOut();
        for (Net net : nets) {
            useTree(edges, net);
        }
        for (Net net : nets) {
            for (int site : sitesThrough(fabric, edges, net.route())) {
                usePinsOf(site, Occupant.ofNet(net.id()), false);
            }
        }
        for (Cell cell : cells) {
            if (base.cellBySite.put(cell.site(), cell.id()) != Fabric.NOTHING) {
                throw new IllegalArgumentException("two cells on site " + cell.site());
            }
            usePins(cell);
        }
        base.occupied.or(unusable.vertices());
    }

    private static Int2IntOpenHashMap table() {
        Int2IntOpenHashMap result = new Int2IntOpenHashMap();
        result.defaultReturnValue(Fabric.NOTHING);
        return result;
    }

    private void useTree(EdgeCursor edges, Net net) {
        RouteTree tree = net.route();
        for (int place = 0; place < tree.size(); place++) {
            int vertex = tree.vertex(place);
            int before = base.netByVertex.put(vertex, net.id());
            if (before != Fabric.NOTHING) {
                if (!shareThePad(vertex, nets.get(before), net)) {
                    throw shared(vertex, before, net.id());
                }
                int user = starts(net, vertex) ? before : net.id();
                base.netByVertex.put(vertex, user);
                base.startingBeside.put(vertex, before + net.id() - user);
            }
            base.occupied.set(vertex);
        }
    }

    private static boolean starts(Net net, int vertex) {
        return net.route().root() == vertex;
    }

    /** Whether one of two nets starts at a pad and the other one comes to it. */
    private boolean shareThePad(int vertex, Net one, Net other) {
        return fabric.kind(vertex) == VertexKind.PAD
                && starts(one, vertex) != starts(other, vertex);
    }

    private IllegalArgumentException shared(int vertex, int one, int other) {
        return new IllegalArgumentException(
                fabric.vertexName(vertex)
                        + " carries nets "
                        + nets.get(one).name()
                        + " and "
                        + nets.get(other).name());
    }

    private void usePinsOf(int site, int occupant, boolean also) {
        int first = fabric.firstPin(site);
        int end = first + fabric.pinsOf(site).size();
        for (int vertex = first; vertex < end; vertex++) {
            if (also || !base.occupied.get(vertex)) {
                base.ownerOfPin.put(vertex, occupant);
                base.occupied.set(vertex);
            }
        }
    }

    private void usePins(Cell cell) {
        if (!cell.letsThrough()) {
            usePinsOf(cell.site(), Occupant.ofCell(cell.id()), true);
            return;
        }
        SiteView view = fabric.site(cell.site());
        for (int pin = 0; pin < view.pins().size(); pin++) {
            if (endsAt(cell, view, pin)) {
                int vertex = view.firstPin() + pin;
                base.ownerOfPin.put(vertex, Occupant.ofCell(cell.id()));
                base.occupied.set(vertex);
            }
        }
    }

    /** Whether some net ends at a pin of a cell. */
    private boolean endsAt(Cell cell, SiteView view, int pin) {
        String name = view.pins().get(pin).name();
        for (int net : netsByEnd.get().atCell(cell.id())) {
            for (Terminal end : nets.get(net).ends()) {
                if (end instanceof Terminal.CellPin at
                        && at.cell() == cell.id()
                        && at.pin().equals(name)) {
                    return true;
                }
            }
        }
        return false;
    }

    /** The sites that a tree goes through. O(size). */
    static IntSet sitesThrough(Fabric fabric, EdgeCursor edges, RouteTree tree) {
        IntSet result = new IntOpenHashSet();
        for (int place = 1; place < tree.size(); place++) {
            int vertex = tree.vertex(place);
            int before = tree.vertex(tree.parent(place));
            int site = fabric.siteOf(vertex);
            // A pass-through joins two pins of one site; a clock's wire leads to thousands.
            if (site != Fabric.NOTHING
                    && fabric.siteOf(before) == site
                    && kindOfEdge(edges, before, vertex) == EdgeKind.PASS_THROUGH) {
                result.add(site);
            }
        }
        return result;
    }

    private static EdgeKind kindOfEdge(EdgeCursor edges, int from, int to) {
        edges.reset(from);
        while (edges.next()) {
            if (edges.other() == to) {
                return edges.kind();
            }
        }
        throw new IllegalArgumentException("no edge from " + from + " to " + to);
    }

    /**
     * The occupancy of the design after a change. O(wires and ends of what changes + the
     * differences from the design that was read).
     */
    private Occupancy(
            Occupancy before,
            Numbered<Cell> cells,
            Numbered<Net> nets,
            Lazy<NetsByEnd> netsByEnd,
            DesignChange change) {
        this.fabric = before.fabric;
        this.unusable = before.unusable;
        this.cells = cells;
        this.nets = nets;
        this.netsByEnd = netsByEnd;
        this.base = before.base;
        this.occupantByVertex = before.occupantByVertex.clone();
        this.netByVertex = before.netByVertex.clone();
        this.cellBySite = before.cellBySite.clone();
        this.startingBeside = before.startingBeside.clone();
        this.differing = before.differing.clone();
        IntSet touched = new IntOpenHashSet();
        moveNets(before, change, touched);
        moveCells(before, change, touched);
        for (int vertex : touched) {
            note(vertex, occupantNow(vertex));
        }
    }

    /** See the constructor; the parts are those of the design after the change. */
    Occupancy with(
            Numbered<Cell> cellsNow,
            Numbered<Net> netsNow,
            Lazy<NetsByEnd> netsByEndNow,
            DesignChange change) {
        return new Occupancy(this, cellsNow, netsNow, netsByEndNow, change);
    }

    private void moveNets(Occupancy before, DesignChange change, IntSet touched) {
        EdgeCursor edges = fabric.edgesOut();
        for (Net net : change.netsRemoved()) {
            takeOff(edges, net, new IntOpenHashSet(), touched);
            addPinsOfOpenEnds(before, net, touched);
        }
        for (Net net : change.nets()) {
            Optional<Net> old = before.nets.find(net.id());
            if (old.isPresent()) {
                IntSet stays = commonPart(old.get().route(), net.route());
                takeOff(edges, old.get(), stays, touched);
                addPinsOfOpenEnds(before, old.get(), touched);
            }
        }
        for (Net net : change.nets()) {
            RouteTree tree = net.route();
            for (int place = 0; place < tree.size(); place++) {
                int vertex = tree.vertex(place);
                int there = netIdOn(vertex);
                if (there == net.id() || startingBesideOn(vertex) == net.id()) {
                    continue;
                }
                int user = net.id();
                if (there != Fabric.NOTHING) {
                    if (!shareThePad(vertex, nets.get(there), net)) {
                        throw shared(vertex, there, net.id());
                    }
                    user = starts(net, vertex) ? there : net.id();
                    int starting = there + net.id() - user;
                    putStarting(vertex, starting);
                }
                put(netByVertex, base.netByVertex, vertex, user);
                touched.add(vertex);
            }
            for (int site : sitesThrough(fabric, edges, tree)) {
                addPinsOf(site, touched);
            }
            addPinsOfOpenEnds(this, net, touched);
        }
    }

    private void takeOff(EdgeCursor edges, Net net, IntSet stays, IntSet touched) {
        RouteTree tree = net.route();
        for (int place = 0; place < tree.size(); place++) {
            int vertex = tree.vertex(place);
            if (!stays.contains(vertex)) {
                int starting = startingBesideOn(vertex);
                if (starting != Fabric.NOTHING) {
                    putStarting(vertex, Fabric.NOTHING);
                }
                // Of two nets on a pad, the other one stays.
                int left = starting == net.id() ? netIdOn(vertex) : starting;
                put(netByVertex, base.netByVertex, vertex, left);
                touched.add(vertex);
            }
        }
        for (int site : sitesThrough(fabric, edges, tree)) {
            addPinsOf(site, touched);
        }
    }

    /** The vertices that two trees of one net have in common. */
    private static IntSet commonPart(RouteTree one, RouteTree other) {
        IntSet result = new IntOpenHashSet(one.toVertices());
        result.retainAll(new IntOpenHashSet(other.toVertices()));
        return result;
    }

    /** A cell that lets signals through uses a pin only while a net ends there. */
    private void addPinsOfOpenEnds(Occupancy when, Net net, IntSet touched) {
        for (Terminal end : net.ends()) {
            if (end instanceof Terminal.CellPin at) {
                Optional<Cell> cell = when.cells.find(at.cell()).filter(Cell::letsThrough);
                cell.ifPresent(c -> touched.add(fabric.site(c.site()).findPin(at.pin())));
            }
        }
    }

    private void addPinsOf(int site, IntSet touched) {
        SiteView view = fabric.site(site);
        for (int pin = 0; pin < view.pins().size(); pin++) {
            touched.add(view.firstPin() + pin);
        }
    }

    private void moveCells(Occupancy before, DesignChange change, IntSet touched) {
        for (Cell cell : change.cellsRemoved()) {
            put(cellBySite, base.cellBySite, cell.site(), Fabric.NOTHING);
            addPinsOf(cell.site(), touched);
        }
        for (Cell cell : change.cells()) {
            before.cells
                    .find(cell.id())
                    .ifPresent(
                            old -> {
                                put(cellBySite, base.cellBySite, old.site(), Fabric.NOTHING);
                                addPinsOf(old.site(), touched);
                            });
        }
        for (Cell cell : change.cells()) {
            if (cellIdOn(cell.site()) != Fabric.NOTHING) {
                throw new IllegalArgumentException(
                        "two cells on site " + fabric.site(cell.site()).name());
            }
            put(cellBySite, base.cellBySite, cell.site(), cell.id());
            addPinsOf(cell.site(), touched);
        }
    }

    private void putStarting(int vertex, int net) {
        if (base.startingBeside.get(vertex) == net) {
            startingBeside.remove(vertex);
        } else {
            startingBeside.put(vertex, net);
        }
    }

    private static void put(Int2IntMap here, PagedInts shared, int key, int value) {
        put(here, shared.get(key), key, value);
    }

    private static void put(Int2IntMap here, int before, int key, int value) {
        if (before == value) {
            here.remove(key);
        } else {
            here.put(key, value);
        }
    }

    private void note(int vertex, int occupant) {
        put(occupantByVertex, base.occupant(vertex), vertex, occupant);
        boolean occupied = occupant != Fabric.NOTHING || unusable.isVertex(vertex);
        if (occupied == base.occupied.get(vertex)) {
            differing.remove(vertex);
        } else {
            differing.add(vertex);
        }
    }

    /** What uses a vertex, from the cells and nets themselves. */
    private int occupantNow(int vertex) {
        int site = fabric.siteOf(vertex);
        if (site != Fabric.NOTHING && cellIdOn(site) != Fabric.NOTHING) {
            Cell cell = cells.get(cellIdOn(site));
            SiteView view = fabric.site(site);
            if (!cell.letsThrough() || endsAt(cell, view, vertex - view.firstPin())) {
                return Occupant.ofCell(cell.id());
            }
        }
        int net = netIdOn(vertex);
        if (net == Fabric.NOTHING && site != Fabric.NOTHING) {
            net = netThrough(site);
        }
        return net == Fabric.NOTHING ? Fabric.NOTHING : Occupant.ofNet(net);
    }

    /** The net that goes through a site, or {@link Fabric#NOTHING}. O(pins + their nets' sizes). */
    private int netThrough(int site) {
        SiteView view = fabric.site(site);
        for (int pin = 0; pin < view.pins().size(); pin++) {
            int net = netIdOn(view.firstPin() + pin);
            if (net != Fabric.NOTHING && entersFromItsSite(nets.get(net), view, pin)) {
                return net;
            }
        }
        return Fabric.NOTHING;
    }

    /** Whether a net comes to a pin from another pin of the same site. */
    private boolean entersFromItsSite(Net net, SiteView view, int pin) {
        int vertex = view.firstPin() + pin;
        EdgeCursor into = fabric.edgesIn();
        into.reset(vertex);
        boolean possible = false;
        while (into.next() && !possible) {
            possible = into.kind() == EdgeKind.PASS_THROUGH && netIdOn(into.other()) == net.id();
        }
        if (!possible) {
            return false;
        }
        int place = net.route().placeOf(vertex);
        if (place <= 0) {
            return false;
        }
        int parent = net.route().vertex(net.route().parent(place));
        return kindOfEdge(fabric.edgesOut(), parent, vertex) == EdgeKind.PASS_THROUGH;
    }

    /** The number of {@link #findNetOn}, or {@link Fabric#NOTHING}. */
    public int netIdOn(int vertex) {
        return netByVertex.containsKey(vertex)
                ? netByVertex.get(vertex)
                : base.netByVertex.get(vertex);
    }

    private int startingBesideOn(int vertex) {
        return startingBeside.containsKey(vertex)
                ? startingBeside.get(vertex)
                : base.startingBeside.get(vertex);
    }

    private int cellIdOn(int site) {
        return cellBySite.containsKey(site) ? cellBySite.get(site) : base.cellBySite.get(site);
    }

    /** Whether anything uses the vertex, or nothing may. O(1). */
    public boolean isOccupied(int vertex) {
        return base.occupied.get(vertex) != differing.contains(vertex);
    }

    /** The number of the vertex's occupant, or {@link Fabric#NOTHING}. O(1). */
    public int occupantId(int vertex) {
        return occupantByVertex.containsKey(vertex)
                ? occupantByVertex.get(vertex)
                : base.occupant(vertex);
    }

    /** The occupant of that number. */
    public Occupant occupant(int number) {
        return Occupant.isCell(number)
                ? new Occupant.ByCell(cells.get(Occupant.cellOf(number)))
                : new Occupant.ByNet(nets.get(Occupant.netOf(number)));
    }

    /** What uses the vertex. */
    public Optional<Occupant> findOccupant(int vertex) {
        int number = occupantId(vertex);
        return number == Fabric.NOTHING ? Optional.empty() : Optional.of(occupant(number));
    }

    /** The net that goes through a site. O(pins). */
    public Optional<Net> findNetThrough(int site) {
        int net = netThrough(site);
        return net == Fabric.NOTHING ? Optional.empty() : Optional.of(nets.get(net));
    }

    /** What uses a site: the cell on it, else the net that goes through it. O(pins). */
    public Optional<Occupant> findUserOf(int site) {
        int cell = cellIdOn(site);
        if (cell != Fabric.NOTHING) {
            return Optional.of(new Occupant.ByCell(cells.get(cell)));
        }
        return findNetThrough(site).map(Occupant.ByNet::new);
    }

    /**
     * The net that starts at a pad to which another net comes: what a port in both directions
     * reads. Empty for all other vertices; a net that is alone there is {@link #findNetOn}.
     */
    public Optional<Net> findNetStartingBeside(int vertex) {
        int id = startingBesideOn(vertex);
        return id == Fabric.NOTHING ? Optional.empty() : Optional.of(nets.get(id));
    }

    /** The net whose signal is on the vertex, also on pins of a used site. */
    public Optional<Net> findNetOn(int vertex) {
        int id = netIdOn(vertex);
        return id == Fabric.NOTHING ? Optional.empty() : Optional.of(nets.get(id));
    }

    /** The net that goes from one vertex to the next. O(1), and O(its size) if it has both. */
    public Optional<Net> findNetOver(int from, int to) {
        int id = netIdOn(to);
        boolean fromThere = netIdOn(from) == id || startingBesideOn(from) == id;
        if (id == Fabric.NOTHING || !fromThere) {
            return Optional.empty();
        }
        RouteTree tree = nets.get(id).route();
        int place = tree.placeOf(to);
        return place > 0 && tree.vertex(tree.parent(place)) == from
                ? Optional.of(nets.get(id))
                : Optional.empty();
    }

    /** The cell on a site. */
    public Optional<Cell> findCellOn(int site) {
        int id = cellIdOn(site);
        return id == Fabric.NOTHING ? Optional.empty() : Optional.of(cells.get(id));
    }

    /**
     * The vertices that the design which was read occupies: the set itself, which searches share,
     * and not to be changed. {@link #differing} says where this occupancy is not the same.
     */
    public BitSet sharedBits() {
        return base.occupied;
    }

    /** The vertices that are occupied in one of this and {@link #sharedBits} only. */
    public IntSet differing() {
        return IntSets.unmodifiable(differing);
    }

    /** A copy of all occupied vertices. O(vertices / 64). */
    public BitSet toBits() {
        BitSet result = (BitSet) base.occupied.clone();
        differing.forEach(result::flip);
        return result;
    }

    /** Whether a cell or net uses the vertex. O(1). */
    public boolean isUsed(int vertex) {
        return occupantId(vertex) != Fabric.NOTHING;
    }

    /** How many vertices cells and nets use. O(vertices / 64 + unusable vertices). */
    public int usedCount() {
        int count = base.occupied.cardinality();
        for (int vertex : differing) {
            count += base.occupied.get(vertex) ? -1 : 1;
        }
        return count - (int) unusable.vertices().stream().filter(v -> !isUsed(v)).count();
    }

    /** The vertices that the fabric marks as unusable; not to be changed. */
    public BitSet unusable() {
        return unusable.vertices();
    }
}
