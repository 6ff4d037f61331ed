package padward.ui.design;

import padward.design.Net;
import padward.design.Occupancy;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;

/**
 * Which parts of the wires that nets use are used: from the tap at which the signal enters to those
 * at which it leaves. Not for use by several threads at once.
 */
public final class NetParts {
    /** Takes a part of a wire, by the tiles of its two taps. */
    public interface Part {
        void use(int fromTile, int toTile);
    }

    private final TileLayout layout;
    private final Occupancy occupancy;
    private final TreeParents parents;
    private final EdgeCursor out;

    /** Parts of a design's wires. */
    public NetParts(OpenDesign opened) {
        this.layout = opened.layout();
        this.occupancy = opened.design().occupancy();
        this.parents = opened.parents();
        this.out = opened.design().fabric().edgesOut();
    }

    /**
     * Visits the used parts of a wire, none where no net uses it. O(switches that lead from the
     * wire), whatever the size of the net.
     */
    public void forEachPart(int wire, Part part) {
        occupancy.findNetOn(wire).ifPresent(net -> forEachPart(net, wire, part));
    }

    private void forEachPart(Net net, int wire, Part part) {
        int parent = parents.parent(net, wire);
        int enters = parent == Fabric.NOTHING ? parent : layout.meeting(parent, wire).toTile();
        out.reset(wire);
        while (out.next()) {
            int next = out.other();
            boolean used = occupancy.findNetOn(next).filter(n -> n.id() == net.id()).isPresent();
            if (used && parents.parent(net, next) == wire) {
                int leaves = layout.meeting(wire, next).fromTile();
                part.use(enters == Fabric.NOTHING ? leaves : enters, leaves);
            }
        }
    }
}
