package padward.unblock.release;

import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.design.Design;
import padward.design.EnableBranch;
import padward.design.Net;
import padward.design.Occupant;
import padward.design.Port;
import padward.design.PortDirection;
import padward.design.RouteTree;
import padward.design.RouteTreeBranches;
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.fabric.SiteView;

/**
 * Finds what is disconnected when a port loses its pad: the port's own branch, never the whole net.
 */
public final class PortBranch {
    private PortBranch() {}

    /** The branch that serves the output port on a pad alone; empty when there is no such port. */
    public static Optional<DisconnectedBranch> find(Design design, int pad) {
        Optional<Port> port = design.findPortOn(pad).filter(p -> p.direction() != PortDirection.IN);
        if (port.isEmpty()) {
            return Optional.empty();
        }
        int padVertex = design.fabric().pads().get(pad).vertex();
        // The net on the pad need not be the port's: then there is nothing to disconnect.
        Optional<Net> net =
                design.occupancy()
                        .findNetOn(padVertex)
                        .filter(n -> n.route().root() != padVertex)
                        .filter(n -> n.sinks().contains(new Terminal.PortEnd(port.get().id())));
        if (net.isEmpty()) {
            return Optional.empty();
        }
        IntSet kept = new IntOpenHashSet();
        for (Terminal sink : net.get().sinks()) {
            kept.add(design.vertexOf(sink));
        }
        List<EnableBranch> enables = EnableBranch.of(design, port.get(), design::findPortOn);
        // The same net may lead to the enable, even from the pad on.
        IntSet enable = new IntOpenHashSet();
        enables.stream()
                .filter(e -> e.net().id() == net.get().id())
                .forEach(e -> enable.addAll(e.vertices()));
        IntSet given = new IntOpenHashSet(enable);
        given.add(padVertex);
        kept.removeAll(given);
        RouteTree tree = net.get().route();
        boolean[] gone = RouteTreeBranches.servingOnly(tree, given, kept);
        NetResources used = new NetResources(design, net.get());
        IntSet stillThrough = new IntOpenHashSet();
        IntSet left = new IntOpenHashSet();
        for (int place = 1; place < tree.size(); place++) {
            if (used.goesThroughInto(place)) {
                (gone[place] ? left : stillThrough).add(design.fabric().siteOf(tree.vertex(place)));
            }
        }
        left.removeAll(stillThrough);
        List<Integer> vertices = new ArrayList<>();
        for (int place = 1; place < tree.size(); place++) {
            // While the rest of the net goes through a site, it uses all of its pins.
            int site = design.fabric().siteOf(tree.vertex(place));
            boolean stays = site != Fabric.NOTHING && stillThrough.contains(site);
            // A cell at whose pin the branch was only in the air goes on using it.
            int occupant = design.occupancy().occupantId(tree.vertex(place));
            boolean mine = gone[place] && !enable.contains(tree.vertex(place));
            if (mine && !stays && occupant == Occupant.ofNet(net.get().id())) {
                vertices.add(tree.vertex(place));
            }
        }
        vertices.addAll(pinsOf(design, net.get(), left));
        return Optional.of(new DisconnectedBranch(port.get(), net.get(), vertices, enables));
    }

    /** Pins that the net used only because the branch went through their sites. */
    private static List<Integer> pinsOf(Design design, Net net, IntSet sites) {
        List<Integer> result = new ArrayList<>();
        for (int site : sites) {
            SiteView view = design.fabric().site(site);
            for (int pin = 0; pin < view.pins().size(); pin++) {
                int vertex = view.firstPin() + pin;
                boolean onlyUsed =
                        design.occupancy().occupantId(vertex) == net.id()
                                && net.route().placeOf(vertex) == Fabric.NOTHING;
                if (onlyUsed) {
                    result.add(vertex);
                }
            }
        }
        return result;
    }
}
