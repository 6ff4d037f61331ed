package padward.unblock.move;

import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.BitSet;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupant;
import padward.design.RouteTree;
import padward.fabric.Fabric;
import padward.fabric.SiteView;
import padward.route.cost.BlockedVertices;
import padward.route.cost.CostModel;
import padward.route.cost.ObstacleCost;
import padward.unblock.release.QuestionContext;

/** Routes over the wires of nets that could be pushed aside: never over cells or what is new. */
final class RipUpCost {
    private final QuestionContext context;
    private final Design design;
    private final Net net;
    private final OccupancyOverlay overlay;
    private final BitSet fixed;

    RipUpCost(QuestionContext context, Net net, OccupancyOverlay overlay) {
        this.context = context;
        this.design = context.design();
        this.net = net;
        this.overlay = overlay;
        this.fixed = new BitSet(design.fabric().vertexCount());
        fixed.or(design.locks().closed());
        for (Cell cell : design.cells()) {
            SiteView site = design.fabric().site(cell.site());
            for (int pin = 0; pin < site.pins().size(); pin++) {
                int vertex = site.firstPin() + pin;
                if (Occupant.isCell(design.occupancy().occupantId(vertex))
                        && overlay.isTaken(vertex)) {
                    fixed.set(vertex);
                }
            }
        }
    }

    /**
     * The routes to one sink, at a price for each net crossed.
     *
     * @param own the net's own tree, as far as it has been routed
     */
    CostModel routesTo(int sink, RouteTree own) {
        IntSet shut = new IntOpenHashSet(own.toVertices());
        overlay.newVertices(shut);
        for (int vertex : context.closedVertices()) {
            shut.add(vertex);
        }
        BitSet closed = (BitSet) fixed.clone();
        shut.forEach(closed::set);
        closed.clear(sink);
        ObstacleCost costs =
                new ObstacleCost(
                        BlockedVertices.of(closed),
                        overlay.takenBut(sink),
                        design.occupancy()::occupantId);
        return overlay.switches().obeying(costs, this::priceOfSwitch);
    }

    private long priceOfSwitch(int from, int to) {
        int user = overlay.switches().excluding(from, to);
        if (user == SwitchOverlay.NOBODY) {
            return 0;
        }
        boolean stays =
                user == SwitchOverlay.NEW_ROUTE
                        || user == net.id()
                        || user == context.net().id()
                        || design.locks().keeps(user);
        return stays ? CostModel.CLOSED : ObstacleCost.PRICE;
    }

    /** The net to be pushed aside because its switch excludes one, or {@link Fabric#NOTHING}. */
    int excluding(int from, int to) {
        return Math.max(Fabric.NOTHING, overlay.switches().excluding(from, to));
    }

    /** The net to be pushed aside at a vertex, or {@link Fabric#NOTHING}. */
    int usedBy(int vertex, int sink) {
        int id = design.occupancy().occupantId(vertex);
        boolean pushed =
                vertex != sink
                        && overlay.isTaken(vertex)
                        && !overlay.isNew(vertex)
                        && id >= 0
                        && !Occupant.isCell(id)
                        && id != net.id();
        return pushed ? id : Fabric.NOTHING;
    }
}
