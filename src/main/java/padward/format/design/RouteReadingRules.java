package padward.format.design;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.Int2LongOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.List;
import java.util.Optional;
import padward.base.PagedInts;
import padward.design.Cell;
import padward.design.Port;
import padward.design.PortDirection;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKey;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.SwitchGroups;
import padward.format.json.DesignFault;
import padward.format.source.Text;

/**
 * The rules for the wires of every design: each is driven by one net, over switches, fixed
 * connections and pass-throughs that are there and free. One object watches over one design; 4 to
 * 512 bytes a vertex in use, the less the denser.
 */
public final class RouteReadingRules {
    private final Fabric fabric;
    private final EdgeCursor edges;
    private final List<Cell> cells;
    private final List<String> netNames;
    private final PagedInts netByVertex;

    /** Nets that start at the pads of ports in both directions. */
    private final Int2IntOpenHashMap startingOn = new Int2IntOpenHashMap();

    /** The pads of ports in both directions. */
    private final IntSet bothWays = new IntOpenHashSet();

    private final PagedInts netThroughSite;
    private final PagedInts cellBySite;
    private final SwitchGroups groups;
    private final Int2LongOpenHashMap onInGroup = new Int2LongOpenHashMap();
    private final Int2IntOpenHashMap netInGroup = new Int2IntOpenHashMap();

    /**
     * @param cells the design's cells on their sites
     * @param ports the design's ports
     * @param netNames names of nets by number; may grow meanwhile
     */
    public RouteReadingRules(
            Fabric fabric, List<Cell> cells, List<Port> ports, List<String> netNames) {
        this.fabric = fabric;
        this.edges = fabric.edgesOut();
        this.cells = cells;
        this.netNames = netNames;
        this.groups = fabric.switchGroups();
        netByVertex = new PagedInts(fabric.vertexCount());
        netThroughSite = new PagedInts(fabric.siteCount());
        cellBySite = new PagedInts(fabric.siteCount());
        startingOn.defaultReturnValue(Fabric.NOTHING);
        // What faulty tables could not place has the number 0, which a fabric without pads or sites
        // does not have.
        ports.stream()
                .filter(p -> p.direction() == PortDirection.BOTH)
                .filter(p -> p.pad() < fabric.pads().size())
                .forEach(p -> bothWays.add(fabric.pads().get(p.pad()).vertex()));
        for (Cell cell : cells) {
            if (cell.site() < fabric.siteCount()) {
                cellBySite.put(cell.site(), cell.id());
            }
        }
    }

    private String quote(int vertex) {
        return Text.quote(fabric.vertexName(vertex));
    }

    /** Gives a net the vertex where it starts. */
    public Optional<DesignFault> start(int net, int vertex) {
        return take(net, vertex, true);
    }

    /** Gives a net a vertex that it comes to. */
    public Optional<DesignFault> take(int net, int vertex) {
        return take(net, vertex, false);
    }

    /**
     * The net must be the only one that has it; but to the pad of a port in both directions one net
     * may come while another one starts there.
     */
    private Optional<DesignFault> take(int net, int vertex, boolean starts) {
        if (bothWays.contains(vertex)) {
            int before =
                    starts
                            ? startingOn.putIfAbsent(vertex, net)
                            : netByVertex.putIfAbsent(vertex, net);
            return takenBy(before, net, vertex);
        }
        return takenBy(netByVertex.putIfAbsent(vertex, net), net, vertex);
    }

    private Optional<DesignFault> takenBy(int before, int net, int vertex) {
        return before == Fabric.NOTHING
                ? Optional.empty()
                : DesignFileRules.trouble(
                        "a wire, pin or pad that only one net has",
                        quote(vertex)
                                + ", which nets "
                                + Text.quote(netNames.get(before))
                                + " and "
                                + Text.quote(netNames.get(net))
                                + " both have");
    }

    /** Whether a net has a vertex so far. */
    public boolean isOn(int net, int vertex) {
        return netByVertex.get(vertex) == net || startingOn.get(vertex) == net;
    }

    /** Whether a net can go from one vertex to the next. O(edges at {@code from}). */
    public Optional<DesignFault> step(int net, int from, int to) {
        edges.reset(from);
        while (edges.next()) {
            if (edges.other() == to) {
                return edges.kind() == EdgeKind.PASS_THROUGH
                        ? through(net, fabric.siteOf(to))
                        : turnOn(net, from, to);
            }
        }
        return DesignFileRules.trouble(
                "a switch, fixed connection or pass-through from " + quote(from) + " to it",
                quote(to) + ", to which there is none");
    }

    /** Of the switches of a group, one can be on. */
    private Optional<DesignFault> turnOn(int net, int from, int to) {
        int group = groups.groupOf(from, to);
        if (group == Fabric.NOTHING) {
            return Optional.empty();
        }
        long edge = EdgeKey.of(from, to);
        if (netInGroup.containsKey(group) && onInGroup.get(group) != edge) {
            long before = onInGroup.get(group);
            return DesignFileRules.trouble(
                    "at most one switch of group " + Text.quote(groups.name(group)) + " that is on",
                    "the one from "
                            + quote(from)
                            + " besides the one from "
                            + quote(EdgeKey.from(before))
                            + " to "
                            + quote(EdgeKey.to(before))
                            + " of net "
                            + Text.quote(netNames.get(netInGroup.get(group))));
        }
        onInGroup.put(group, edge);
        netInGroup.put(group, net);
        return Optional.empty();
    }

    private Optional<DesignFault> through(int net, int site) {
        int cell = cellBySite.get(site);
        if (cell != Fabric.NOTHING && !cells.get(cell).letsThrough()) {
            return DesignFileRules.trouble(
                    "a pass-through of an unused site, or of one whose cell has the setting through ="
                            + " open",
                    fabric.site(site).described()
                            + ", which cell "
                            + Text.quote(cells.get(cell).name())
                            + " uses");
        }
        int before = netThroughSite.put(site, net);
        return before == Fabric.NOTHING || before == net
                ? Optional.empty()
                : DesignFileRules.trouble(
                        "a site that only one net passes through",
                        fabric.site(site).described()
                                + ", which net "
                                + Text.quote(netNames.get(before))
                                + " passes through already");
    }
}
