package padward.clearance;

import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import it.unimi.dsi.fastutil.ints.IntSets;
import java.util.BitSet;
import java.util.Optional;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupancy;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.fabric.SiteView;
import padward.fabric.VertexKind;
import padward.route.Barrier;
import padward.route.FreeWays;
import padward.route.Path;
import padward.route.PricedWays;

/**
 * What a breakout of one net may use, in three kinds: free vertices; vertices held by occupants
 * that could be freed; vertices closed at any price, because they belong to the net itself or to
 * the cell that drives it. Kept as differences from the design's occupancy: O(net's tree).
 */
public final class Situation {
    private static final BitSet EMPTY = new BitSet();

    private final Design design;
    private final Net net;
    private final Optional<LetGo> given;
    private final Occupancy occupancy;
    private final IntSet closed = new IntOpenHashSet();
    private final IntSet letGo = new IntOpenHashSet();

    /** The situation of a net when a port gives up its pad, or none does. */
    public Situation(Design design, Net net, Optional<LetGo> letGo) {
        this.design = design;
        this.net = net;
        this.given = letGo;
        this.occupancy = design.occupancy();
        letGo.ifPresent(l -> this.letGo.addAll(l.vertices()));
        RouteTree tree = net.route();
        HeldByNet own = new HeldByNet(design, net);
        for (int place = 0; place < tree.size(); place++) {
            closed.add(tree.vertex(place));
            if (own.goesThroughInto(place)) {
                closeSite(design.fabric(), tree.vertex(place));
            }
        }
        if (net.driver() instanceof Terminal.CellPin at) {
            closePins(design.fabric(), design.cells().get(at.cell()));
        }
    }

    /** A site that the net itself goes through has other pins, which no other way may use. */
    private void closeSite(Fabric fabric, int vertex) {
        SiteView view = fabric.site(fabric.siteOf(vertex));
        for (int pin = 0; pin < view.pins().size(); pin++) {
            int other = view.firstPin() + pin;
            if (!letGo.contains(other)) {
                closed.add(other);
            }
        }
    }

    private void closePins(Fabric fabric, Cell driver) {
        SiteView site = fabric.site(driver.site());
        for (int pin = 0; pin < site.pins().size(); pin++) {
            closed.add(site.firstPin() + pin);
        }
    }

    /** The design. */
    public Design design() {
        return design;
    }

    /** The net to be brought out. */
    public Net net() {
        return net;
    }

    /** What the port on the pad lets go. */
    public Optional<LetGo> letGo() {
        return given;
    }

    /**
     * Closes the pads that a way goes through on its way to another, which it would drive as well.
     * Ways like that are rare, so pads are not closed before one turns up.
     *
     * @return whether there are such pads: then the search has to be done again
     */
    public boolean closePadsPassed(Path path) {
        boolean any = false;
        for (int i = 1; i < path.size() - 1; i++) {
            if (design.fabric().kind(path.vertex(i)) == VertexKind.PAD) {
                any |= closed.add(path.vertex(i));
            }
        }
        return any;
    }

    /** All vertices that nothing can make usable. */
    public IntSet closedVertices() {
        return closed;
    }

    /** Whether nothing can make the vertex usable. */
    boolean isClosed(int vertex) {
        return closed.contains(vertex);
    }

    /** Whether an occupant holds the vertex that has not let it go. */
    boolean isHeld(int vertex) {
        return occupancy.isOccupied(vertex) && !letGo.contains(vertex);
    }

    private boolean isUsable(int vertex) {
        return !isHeld(vertex) && !closed.contains(vertex);
    }

    /** Ways over what is free. */
    public FreeWays overFree() {
        return overFreeAnd(IntSets.EMPTY_SET);
    }

    /** Ways over what is free, and over vertices that are held now but shall be freed. */
    FreeWays overFreeAnd(IntSet freed) {
        IntSet different = new IntOpenHashSet();
        for (int vertex : freed) {
            if (occupancy.isOccupied(vertex) && !closed.contains(vertex)) {
                different.add(vertex);
            }
        }
        for (int vertex : closed) {
            if (!occupancy.isOccupied(vertex)) {
                different.add(vertex);
            }
        }
        for (int vertex : letGo) {
            if (isUsable(vertex) == occupancy.isOccupied(vertex)) {
                different.add(vertex);
            }
        }
        return new FreeWays(new Barrier(occupancy.bits(), different));
    }

    /** Ways over everything that could be freed, at a price. */
    public PricedWays atAPrice() {
        Barrier held = new Barrier(occupancy.bits(), heldDifferently());
        return new PricedWays(closed(), held, occupancy::occupantId);
    }

    private IntSet heldDifferently() {
        IntSet different = new IntOpenHashSet();
        for (int vertex : letGo) {
            if (occupancy.isOccupied(vertex)) {
                different.add(vertex);
            }
        }
        return different;
    }

    /** Vertices that may not be entered at any price. */
    public Barrier closed() {
        return new Barrier(EMPTY, closed);
    }

    /**
     * Number of the occupant to be freed before the vertex can be used, or {@link Fabric#NOTHING}.
     */
    public int obstacleAt(int vertex) {
        boolean inTheWay = isHeld(vertex) && !closed.contains(vertex);
        return inTheWay ? occupancy.occupantId(vertex) : Fabric.NOTHING;
    }
}
