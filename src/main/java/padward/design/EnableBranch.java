package padward.design;

import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.IntFunction;
import padward.fabric.EnableSites;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.SiteView;

/**
 * The part of a net that does nothing but switch the driver of one pad: it leads to the IO register
 * site of the pad's enable, where no cell stands, and ends there. It belongs to the port on the
 * pad.
 *
 * @param net the net
 * @param vertices the wires and pins that serve nothing else, in the order of the tree
 */
public record EnableBranch(Net net, List<Integer> vertices) {
    /** Copies the vertices. */
    public EnableBranch {
        vertices = List.copyOf(vertices);
    }

    /**
     * The branches that switch the driver of a port's pad; none when a driver that another port
     * uses is switched through the same site.
     *
     * @param portOn the port on a pad, by its index
     */
    public static List<EnableBranch> of(
            Design design, Port port, IntFunction<Optional<Port>> portOn) {
        Fabric fabric = design.fabric();
        Pad pad = fabric.pads().get(port.pad());
        int site = pad.enableSite();
        if (site == Fabric.NOTHING
                || port.direction() == PortDirection.IN
                || otherUser(fabric, port, portOn).isPresent()) {
            return List.of();
        }
        List<EnableBranch> result = new ArrayList<>();
        for (Net net : netsAt(design, site)) {
            IntSet kept = new IntOpenHashSet();
            net.sinks().stream()
                    .filter(s -> !s.equals(Terminal.PortEnd.enableOf(port.id())))
                    .forEach(s -> kept.add(design.vertexOf(s)));
            List<Integer> vertices = servingOnly(net.route(), fabric, site, kept);
            if (!vertices.isEmpty()) {
                result.add(new EnableBranch(net, vertices));
            }
        }
        return result;
    }

    /**
     * A port whose pad's driver is switched through the same site as that of another.
     *
     * @param portOn the port on a pad, by its index
     */
    public static Optional<Port> otherUser(
            Fabric fabric, Port port, IntFunction<Optional<Port>> portOn) {
        return EnableSites.of(fabric)
                .padsAt(fabric.pads().get(port.pad()).enableSite())
                .intStream()
                .mapToObj(portOn)
                .flatMap(Optional::stream)
                .filter(p -> p.id() != port.id() && p.direction() != PortDirection.IN)
                .findFirst();
    }

    /** The nets that come to an enable's site where no cell stands. */
    static List<Net> netsAt(Design design, int site) {
        if (site == Fabric.NOTHING || design.occupancy().findCellOn(site).isPresent()) {
            return List.of();
        }
        Map<Integer, Net> nets = new LinkedHashMap<>();
        SiteView view = design.fabric().site(site);
        for (int pin = 0; pin < view.pins().size(); pin++) {
            design.occupancy().findNetOn(view.firstPin() + pin).ifPresent(n -> nets.put(n.id(), n));
        }
        return List.copyOf(nets.values());
    }

    /** What of a tree leads only to a site. */
    private static List<Integer> servingOnly(RouteTree tree, Fabric fabric, int site, IntSet kept) {
        boolean[] beyond = new boolean[tree.size()];
        IntSet ends = new IntOpenHashSet();
        for (int place = 1; place < tree.size(); place++) {
            beyond[place] = beyond[tree.parent(place)] || fabric.siteOf(tree.vertex(place)) == site;
            if (beyond[place]) {
                ends.add(tree.vertex(place));
            }
        }
        boolean[] gone = RouteTreeBranches.servingOnly(tree, ends, kept);
        List<Integer> result = new ArrayList<>();
        for (int place = 1; place < tree.size(); place++) {
            if (gone[place]) {
                result.add(tree.vertex(place));
            }
        }
        return result;
    }

    /** A net without this branch; it may have changed otherwise meanwhile. */
    public Net takenFrom(Net now) {
        IntSet mine = new IntOpenHashSet(vertices);
        RouteTree tree = now.route();
        boolean[] gone = new boolean[tree.size()];
        for (int place = 1; place < tree.size(); place++) {
            gone[place] = mine.contains(tree.vertex(place));
        }
        return now.withRoute(RouteTreeBranches.without(tree, gone));
    }
}
