package padward.breakout;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import padward.design.Design;
import padward.design.Net;
import padward.design.Port;
import padward.design.PortDirection;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.Fabric;

/**
 * Finds what is let go when a port gives up its pad: the port's own branch, never the whole net.
 */
final class PortBranch {
    private PortBranch() {}

    /** The branch that serves the output port on a pad alone; empty when there is no such port. */
    static Optional<LetGo> find(Design design, int pad) {
        Optional<Port> port = design.findPortOn(pad).filter(p -> p.direction() != PortDirection.IN);
        if (port.isEmpty()) {
            return Optional.empty();
        }
        int padVertex = design.fabric().pads().get(pad).vertex();
        Optional<Net> net =
                design.occupancy().findNetOn(padVertex).filter(n -> n.route().root() != padVertex);
        if (net.isEmpty()) {
            return Optional.empty();
        }
        List<Integer> branch = branchTo(design, net.get(), padVertex);
        return Optional.of(new LetGo(port.get(), net.get(), branch));
    }

    /** The vertices from the last branching, exclusive, to the pad; the pad last. */
    private static List<Integer> branchTo(Design design, Net net, int padVertex) {
        RouteTree tree = net.route();
        int[] children = new int[tree.size()];
        for (int place = 1; place < tree.size(); place++) {
            children[tree.parent(place)]++;
        }
        Set<Integer> stillNeeded = new HashSet<>();
        for (Terminal sink : net.sinks()) {
            stillNeeded.add(design.vertexOf(sink));
        }
        stillNeeded.remove(padVertex);
        int place = tree.placeOf(padVertex);
        List<Integer> branch = new ArrayList<>();
        // A pad that the net also reads back through has children, and then stays with the net.
        while (place != Fabric.NOTHING
                && tree.parent(place) != Fabric.NOTHING
                && children[place] <= (branch.isEmpty() ? 0 : 1)
                && !stillNeeded.contains(tree.vertex(place))) {
            branch.add(0, tree.vertex(place));
            place = tree.parent(place);
        }
        return branch;
    }
}
