package padward.ui.design;

import padward.design.Net;
import padward.design.RouteTree;
import padward.fabric.Fabric;

/**
 * Which parts of its wires a net uses: from the tap at which the signal enters to those at which it
 * leaves.
 *
 * @param layout where things are
 * @param net the net
 */
public record NetParts(TileLayout layout, Net net) {
    /** Takes a part of a wire, by the tiles of its two taps. */
    public interface Part {
        void use(int fromTile, int toTile);
    }

    /** Visits the parts of one of the net's wires. O(size of the net's tree). */
    public void forEachPart(int wire, Part part) {
        RouteTree tree = net.route();
        int own = tree.placeOf(wire);
        if (own == Fabric.NOTHING) {
            return;
        }
        int enters = Fabric.NOTHING;
        if (own > 0) {
            enters = layout.meeting(tree.vertex(tree.parent(own)), wire).toTile();
        }
        for (int place = 1; place < tree.size(); place++) {
            if (tree.parent(place) == own) {
                int leaves = layout.meeting(wire, tree.vertex(place)).fromTile();
                part.use(enters == Fabric.NOTHING ? leaves : enters, leaves);
            }
        }
    }
}
