package padward.unblock.release;

import it.unimi.dsi.fastutil.ints.Int2IntMap;
import it.unimi.dsi.fastutil.ints.Int2IntMaps;
import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import it.unimi.dsi.fastutil.ints.IntSets;
import java.util.BitSet;
import padward.base.Lazy;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.fabric.SiteView;
import padward.fabric.delay.Corner;
import padward.route.cost.BlockedVertices;
import padward.route.cost.BlockedVerticesDraft;
import padward.route.search.SearchSources;

/**
 * A net that is to be brought out, with all that questions about it have in common whatever the
 * pad: where it starts, what it uses, and what it closes to every route. The tree of a clock net
 * can have hundreds of thousands of vertices, so this is worked out once for all of its questions.
 * Immutable; threads may share it.
 */
public final class OwnNet {
    /** Sets that are larger than this share of the fabric are looked up as bits. */
    private static final int SHARE_AS_BITS = 256;

    private final Design design;
    private final Net net;
    private final NetResources resources;

    /** Closed, whatever port loses its pad. */
    private final IntSet closed = new IntOpenHashSet();

    /** Closed only because the net goes through their sites, unless a port gives them back. */
    private final IntSet beside = new IntOpenHashSet();

    private final Int2IntOpenHashMap netAtDriver = new Int2IntOpenHashMap();
    private final Lazy<BlockedVertices> closedVertices = new Lazy<>(this::blockClosed);
    private final Lazy<BlockedVerticesDraft> occupied = new Lazy<>(this::blockOccupied);
    private final Lazy<SearchSources> fastStarts = new Lazy<>(() -> along(Corner.FAST));
    private final Lazy<SearchSources> slowStarts = new Lazy<>(() -> along(Corner.SLOW));

    private OwnNet(Design design, Net net) {
        this.design = design;
        this.net = net;
        this.resources = new NetResources(design, net);
        netAtDriver.defaultReturnValue(Fabric.NOTHING);
        closed.addAll(design.tiedPins());
        RouteTree tree = net.route();
        for (int place = 0; place < tree.size(); place++) {
            closed.add(tree.vertex(place));
            if (resources.goesThroughInto(place)) {
                addPins(design.fabric().siteOf(tree.vertex(place)), beside);
            }
        }
        if (!design.locks().isEmpty()) {
            closeEndsAtKept();
        }
        if (net.driver() instanceof Terminal.CellPin at) {
            Cell driver = design.cells().get(at.cell());
            if (driver.letsThrough()) {
                closeEndsAt(driver);
            } else {
                addPins(driver.site(), closed);
            }
        }
        beside.removeAll(closed);
    }

    /** Works it out. O(size of the net's tree). */
    public static OwnNet of(Design design, Net net) {
        return new OwnNet(design, net);
    }

    private void addPins(int site, IntSet to) {
        SiteView view = design.fabric().site(site);
        for (int pin = 0; pin < view.pins().size(); pin++) {
            to.add(view.firstPin() + pin);
        }
    }

    /** Neither the net nor a cell that must stay can leave the pin where it ends. */
    private void closeEndsAtKept() {
        for (Terminal sink : net.sinks()) {
            int vertex = design.vertexOf(sink);
            if (design.locks().netAtPin(vertex) == net.id()) {
                closed.add(vertex);
            }
        }
    }

    /**
     * A driver that lets signals through has the pins at which nets end. It cannot be removed, so
     * those of the net itself stay closed; another one opens when the net that ends there is
     * removed.
     */
    private void closeEndsAt(Cell driver) {
        for (Net there : design.netsAt(driver.id())) {
            for (Terminal end : there.ends()) {
                if (end instanceof Terminal.CellPin at && at.cell() == driver.id()) {
                    int vertex = design.vertexOf(end);
                    if (there.id() == net.id()) {
                        closed.add(vertex);
                    } else {
                        netAtDriver.put(vertex, there.id());
                    }
                }
            }
        }
    }

    /** The design. */
    public Design design() {
        return design;
    }

    /** The net. */
    public Net net() {
        return net;
    }

    /** What the net uses. */
    public NetResources resources() {
        return resources;
    }

    /** The net's own tree, each vertex at the delay that the signal has there. */
    public SearchSources starts(Corner corner) {
        return switch (corner) {
            case FAST -> fastStarts.get();
            case SLOW -> slowStarts.get();
        };
    }

    private SearchSources along(Corner corner) {
        return SearchSources.along(design.fabric(), net.route(), corner);
    }

    /**
     * What nothing can make usable, whatever port loses its pad; the pins of {@link #beside} not.
     */
    IntSet closed() {
        return IntSets.unmodifiable(closed);
    }

    /**
     * Other pins of the sites that the net goes through, which no other route may use unless a port
     * gives them back.
     */
    IntSet beside() {
        return IntSets.unmodifiable(beside);
    }

    /** Whether something is in {@link #closed} or {@link #beside}. */
    boolean closes(int vertex) {
        return closed.contains(vertex) || beside.contains(vertex);
    }

    /** Pins of the net's own driver that it has only while some other net ends there: that net. */
    Int2IntMap netAtDriver() {
        return Int2IntMaps.unmodifiable(netAtDriver);
    }

    /** All that {@link #closes} says and what is locked or unusable, as a set for searches. */
    BlockedVertices closedVertices() {
        return closedVertices.get();
    }

    private BlockedVertices blockClosed() {
        int size = closed.size() + beside.size();
        BitSet kept = design.locks().closed();
        if (kept.isEmpty() && size <= design.fabric().vertexCount() / SHARE_AS_BITS) {
            IntSet all = new IntOpenHashSet(closed);
            all.addAll(beside);
            return BlockedVertices.listed(all);
        }
        BitSet bits = new BitSet(design.fabric().vertexCount());
        closed.forEach(bits::set);
        beside.forEach(bits::set);
        bits.or(kept);
        return BlockedVertices.of(bits);
    }

    /** What the design uses and what {@link #closes} says, as a draft of the caller's own. */
    BlockedVerticesDraft occupied() {
        return occupied.get().copy();
    }

    private BlockedVerticesDraft blockOccupied() {
        return BlockedVerticesDraft.of(design.occupancy()).blockAll(closed).blockAll(beside);
    }
}
