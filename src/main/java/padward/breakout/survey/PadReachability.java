package padward.breakout.survey;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.BitSet;
import padward.design.Design;
import padward.design.Net;
import padward.design.RouteTree;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.VertexKind;

/**
 * From where some pad that can be driven can be reached at all, over what may be used: not over
 * unusable wires and sites, nor over what a locked cell or net uses. Says of any net whether it has
 * a route out once everything else is removed, without asking for each pad.
 */
public final class PadReachability {
    private final BitSet leading;

    private PadReachability(BitSet leading) {
        this.leading = leading;
    }

    /** Walks back from all pads at once. O(V + E). */
    public static PadReachability of(Design design) {
        Fabric fabric = design.fabric();
        BitSet closed = design.locks().closed();
        BitSet leading = new BitSet(fabric.vertexCount());
        IntArrayList open = new IntArrayList();
        for (Pad pad : fabric.pads()) {
            if (pad.directions().canDrive()) {
                // A net that is on a pad which must stay is out already.
                leading.set(pad.vertex());
                if (!closed.get(pad.vertex())) {
                    open.add(pad.vertex());
                }
            }
        }
        EdgeCursor into = fabric.edgesIn();
        while (!open.isEmpty()) {
            into.reset(open.popInt());
            while (into.next()) {
                int before = into.other();
                if (!leading.get(before)) {
                    leading.set(before);
                    // A net may start there, but no route goes through a pad, or what must stay.
                    if (fabric.kind(before) != VertexKind.PAD && !closed.get(before)) {
                        open.add(before);
                    }
                }
            }
        }
        return new PadReachability(leading);
    }

    /** Whether a net's wires lead to some pad. O(size of its tree). */
    public boolean leadOutOf(Net net) {
        RouteTree tree = net.route();
        for (int place = 0; place < tree.size(); place++) {
            if (leading.get(tree.vertex(place))) {
                return true;
            }
        }
        return false;
    }
}
