package padward.unblock.release;

import java.util.List;
import padward.change.Edit;
import padward.design.Net;
import padward.design.Port;

/**
 * What is disconnected with the port on the pad: the port, and the part of its net's tree that
 * serves the port alone. The net itself stays.
 *
 * @param port the port that loses the pad
 * @param net the net that fed it
 * @param vertices the vertices that become free, from the branching to the pad; then the other pins
 *     of sites that only this branch went through
 */
public record DisconnectedBranch(Port port, Net net, List<Integer> vertices) {
    /** Copies the vertices. */
    public DisconnectedBranch {
        vertices = List.copyOf(vertices);
    }

    /** The same as an edit. */
    public Edit toEdit() {
        return new Edit.DisconnectPort(port.name());
    }
}
