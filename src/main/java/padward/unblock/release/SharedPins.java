package padward.unblock.release;

import java.util.LinkedHashSet;
import java.util.Set;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupancy;
import padward.design.Occupant;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.Fabric;

/**
 * Pins that more than one occupant uses: a net may end in the air at a pin of a cell, or go through
 * the site of a cell that lets it, or of a net that ends there. An occupancy names one of them; to
 * use the pin, all have to be removed. {@link ReleaseRules} says so exactly; this is what a fast
 * answer can afford to look at. O(sinks of the nets at the pin).
 */
public final class SharedPins {
    private final Design design;
    private final Occupancy occupancy;
    private final int ownNet;

    public SharedPins(QuestionContext context) {
        this.design = context.design();
        this.occupancy = design.occupancy();
        this.ownNet = context.net().id();
    }

    /** The nets that use a vertex besides an occupant, and still do when that is removed. */
    public Set<Occupant> besides(int vertex, Occupant occupant) {
        Set<Occupant> result = new LinkedHashSet<>();
        int site = design.fabric().siteOf(vertex);
        if (site == Fabric.NOTHING) {
            occupancy
                    .findNetStartingBeside(vertex)
                    .filter(n -> n.id() != ownNet)
                    .map(Occupant.ByNet::new)
                    .filter(n -> !n.equals(occupant))
                    .ifPresent(result::add);
            return result;
        }
        int through = occupancy.findNetThrough(site).map(Net::id).orElse(Fabric.NOTHING);
        occupancy
                .findNetOn(vertex)
                .filter(n -> n.id() == through || !goesWith(n, vertex, occupant))
                .ifPresent(n -> result.add(new Occupant.ByNet(n)));
        occupancy
                .findNetThrough(site)
                .filter(n -> !isDrivenBy(n, occupant))
                .ifPresent(n -> result.add(new Occupant.ByNet(n)));
        result.remove(occupant);
        result.removeIf(o -> o.number() == ownNet || isDrivenBy((Occupant.ByNet) o, occupant));
        return result;
    }

    private static boolean isDrivenBy(Occupant.ByNet net, Occupant occupant) {
        return isDrivenBy(net.net(), occupant);
    }

    private static boolean isDrivenBy(Net net, Occupant occupant) {
        return occupant instanceof Occupant.ByCell by && net.driverCell() == by.cell().id();
    }

    /**
     * Whether a net leaves its pin when the cell there is removed: it ends there, and only there.
     */
    private boolean goesWith(Net net, int vertex, Occupant occupant) {
        if (!(occupant instanceof Occupant.ByCell by)) {
            return false;
        }
        Cell cell = by.cell();
        boolean ends =
                net.sinks().stream()
                        .anyMatch(
                                t ->
                                        t instanceof Terminal.CellPin at
                                                && at.cell() == cell.id()
                                                && design.vertexOf(t) == vertex);
        // From a pin of a cell that lets nothing through, no net goes on.
        return ends && (!cell.letsThrough() || isLeaf(net.route(), vertex));
    }

    private static boolean isLeaf(RouteTree tree, int vertex) {
        int place = tree.placeOf(vertex);
        for (int other = place + 1; other < tree.size(); other++) {
            if (tree.parent(other) == place) {
                return false;
            }
        }
        return true;
    }
}
