package padward.clearance;

import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.BitSet;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.RouteTree;
import padward.fabric.Fabric;
import padward.fabric.SiteView;
import padward.route.Barrier;
import padward.route.PricedWays;

/** Ways over the wires of nets that could be pushed aside: never over cells or what is new. */
final class Pushing {
    private final Situation situation;
    private final Design design;
    private final Net net;
    private final Ground ground;
    private final BitSet fixed;

    Pushing(Situation situation, Net net, Ground ground) {
        this.situation = situation;
        this.design = situation.design();
        this.net = net;
        this.ground = ground;
        this.fixed = new BitSet(design.fabric().vertexCount());
        for (Cell cell : design.cells()) {
            SiteView site = design.fabric().site(cell.site());
            for (int pin = 0; pin < site.pins().size(); pin++) {
                int vertex = site.firstPin() + pin;
                if (design.occupancy().occupantId(vertex) >= design.nets().size()
                        && ground.isTaken(vertex)) {
                    fixed.set(vertex);
                }
            }
        }
    }

    /**
     * The ways to one sink, at a price for each net crossed.
     *
     * @param own the net's own tree, as far as it has been laid
     */
    PricedWays waysTo(int sink, RouteTree own) {
        IntSet shut = new IntOpenHashSet(own.toVertices());
        ground.newVertices(shut);
        for (int vertex : situation.closedVertices()) {
            shut.add(vertex);
        }
        BitSet closed = (BitSet) fixed.clone();
        shut.forEach(closed::set);
        closed.clear(sink);
        return new PricedWays(
                Barrier.of(closed), ground.takenBut(sink), design.occupancy()::occupantId);
    }

    /** The net to be pushed aside at a vertex, or {@link Fabric#NOTHING}. */
    int heldBy(int vertex, int sink) {
        int id = design.occupancy().occupantId(vertex);
        boolean pushed =
                vertex != sink
                        && ground.isTaken(vertex)
                        && !ground.isNew(vertex)
                        && id >= 0
                        && id < design.nets().size()
                        && id != net.id();
        return pushed ? id : Fabric.NOTHING;
    }
}
