package padward.unblock.release;

import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.List;
import padward.change.Edit;
import padward.design.EnableBranch;
import padward.design.Net;
import padward.design.Port;
import padward.design.Terminal;

/**
 * What is disconnected with the port on the pad: the port, and the part of its net's tree that
 * serves the port alone. The net itself stays.
 *
 * @param port the port that loses the pad
 * @param net the net that fed it
 * @param vertices the vertices that become free, from the branching to the pad; then the other pins
 *     of sites that only this branch went through
 * @param enables what only switched the driver of the pad, and becomes free too
 */
public record DisconnectedBranch(
        Port port, Net net, List<Integer> vertices, List<EnableBranch> enables) {
    /** Copies the lists. */
    public DisconnectedBranch {
        vertices = List.copyOf(vertices);
        enables = List.copyOf(enables);
    }

    /** The vertices that become free, of the branch and of the enable. */
    public IntSet allVertices() {
        IntSet result = new IntOpenHashSet(vertices);
        enables.forEach(e -> result.addAll(e.vertices()));
        return result;
    }

    /** The vertices that a net, by its number, loses. */
    public IntSet verticesOf(int number) {
        IntSet result = new IntOpenHashSet();
        if (net.id() == number) {
            result.addAll(vertices);
        }
        enables.stream()
                .filter(e -> e.net().id() == number)
                .forEach(e -> result.addAll(e.vertices()));
        return result;
    }

    /** Whether the port drives a net, which goes with it: that of a port in both directions. */
    public boolean takesAlong(Net other) {
        return other.driver().equals(new Terminal.PortEnd(port.id()));
    }

    /** The same as an edit. */
    public Edit toEdit() {
        return new Edit.DisconnectPort(port.name());
    }
}
