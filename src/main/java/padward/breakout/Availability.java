package padward.breakout;

import java.util.BitSet;
import java.util.Optional;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupancy;
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.fabric.SiteView;

/**
 * What a breakout of one net may use, in three kinds: free vertices; vertices held by occupants
 * that could be freed; vertices closed at any price, because they belong to the net itself or to
 * the cell that drives it.
 */
final class Availability {
    private final Occupancy occupancy;
    private final BitSet held;
    private final BitSet closed;

    Availability(Design design, Net net, Optional<LetGo> letGo) {
        this.occupancy = design.occupancy();
        this.held = occupancy.toBits();
        this.closed = new BitSet(design.fabric().vertexCount());
        letGo.ifPresent(l -> l.vertices().forEach(held::clear));
        for (int place = 0; place < net.route().size(); place++) {
            closed.set(net.route().vertex(place));
        }
        if (net.driver() instanceof Terminal.CellPin at) {
            closePins(design.fabric(), design.cells().get(at.cell()));
        }
        // A site that the net itself goes through has other pins, which no other way may use.
        for (int v = held.nextSetBit(0); v >= 0; v = held.nextSetBit(v + 1)) {
            if (occupancy.occupantId(v) == net.id()) {
                closed.set(v);
            }
        }
    }

    private void closePins(Fabric fabric, Cell driver) {
        SiteView site = fabric.site(driver.site());
        closed.set(site.firstPin(), site.firstPin() + site.pins().size());
    }

    /** Vertices that may not be entered while nothing is freed. A fresh set. */
    BitSet unusable() {
        BitSet result = (BitSet) held.clone();
        result.or(closed);
        return result;
    }

    /** Vertices that may not be entered at any price. Not to be changed. */
    BitSet closed() {
        return closed;
    }

    /**
     * Number of the occupant to be freed before the vertex can be used, or {@link Fabric#NOTHING}.
     */
    int obstacleAt(int vertex) {
        boolean inTheWay = held.get(vertex) && !closed.get(vertex);
        return inTheWay ? occupancy.occupantId(vertex) : Fabric.NOTHING;
    }
}
