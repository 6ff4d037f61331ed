package padward.watch.place;

import java.util.BitSet;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupant;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;

/**
 * The wires of a design that its nets could leave: not their ends, and nothing of what is locked.
 */
final class MovableWires {
    private MovableWires() {}

    /** None, where nothing may be moved. */
    static BitSet none() {
        return new BitSet();
    }

    /** Those of all nets but clocks and those that a circuit observes. O(wires). */
    static BitSet of(Design design, Connections connections) {
        Fabric fabric = design.fabric();
        BitSet result = new BitSet();
        for (Net net : design.nets()) {
            boolean stays =
                    net.clock()
                            || net.lock().keepsWires()
                            || connections.sources().contains(new Source.OfNet(net));
            if (stays) {
                continue;
            }
            for (int vertex : net.route().toVertices()) {
                if (fabric.kind(vertex) == VertexKind.WIRE
                        && design.occupancy().occupantId(vertex) == Occupant.ofNet(net.id())) {
                    result.set(vertex);
                }
            }
        }
        return result;
    }
}
