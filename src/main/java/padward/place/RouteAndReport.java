package padward.place;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import padward.base.Progress;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Netlist;
import padward.design.Port;
import padward.design.PortDirection;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.AlikePins;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.SiteView;
import padward.fabric.VertexKind;
import padward.timing.TreeDelays;

/** Routes a placement, makes the design of it, and reports. */
final class RouteAndReport {
    private final Fabric fabric;
    private final PackedNetlist packed;
    private final Netlist netlist;
    private final CellPlaces places;
    private final PlacementSites sites;
    private final Placement placement;
    private final PlacementCost cost;
    private final BitSet closed;
    private final ArrivalTimes times;

    RouteAndReport(
            Fabric fabric,
            PackedNetlist packed,
            CellPlaces places,
            PlacementSites sites,
            Placement placement,
            PlacementCost cost,
            BitSet closed,
            ArrivalTimes times) {
        this.fabric = fabric;
        this.packed = packed;
        this.netlist = packed.netlist();
        this.places = places;
        this.sites = sites;
        this.placement = placement;
        this.cost = cost;
        this.closed = (BitSet) closed.clone();
        this.times = times;
    }

    PlaceRouteResult finish(PlaceRouteOptions options, Progress progress) {
        List<Cell> cells = cells();
        List<Port> ports = ports();
        openFirstParts(cells);
        cells.forEach(c -> ClosedPins.close(closed, fabric.site(c.site())));
        List<PlacementRouter.Job> jobs = new ArrayList<>();
        for (Netlist.LogicalNet net : netlist.nets()) {
            jobs.add(
                    new PlacementRouter.Job(
                            net.name(),
                            vertex(cells, ports, net.driver()),
                            net.sinks().stream().mapToInt(s -> vertex(cells, ports, s)).toArray(),
                            net.sinks().stream().map(s -> alike(cells, s)).toList()));
        }
        PlacementRouter.Result routed =
                new PlacementRouter(fabric, closed, bothWays(ports))
                        .route(jobs, options.rounds(), progress);
        List<Net> nets = nets(jobs, routed, cells);
        Design design =
                new Design(
                        netlist.name(),
                        "Placed and routed from a netlist.",
                        fabric,
                        options.board(),
                        cells,
                        nets,
                        ports);
        return new PlaceRouteResult.OnFabric(design, report(design, jobs, routed));
    }

    /**
     * A signal may pass through the first part of a pair that has a cell on its second part only.
     */
    private void openFirstParts(List<Cell> cells) {
        EdgeCursor edges = fabric.edgesOut();
        for (Cell cell : cells) {
            int first = places.firstOf(cell.site());
            if (first != Fabric.NOTHING) {
                SiteView part = fabric.site(first);
                if (ClosedPins.hasOneRouteOut(part, edges)) {
                    closed.clear(part.firstPin(), part.firstPin() + part.pins().size());
                }
            }
        }
    }

    private List<Cell> cells() {
        List<Cell> cells = new ArrayList<>();
        for (int c = 0; c < netlist.cells().size(); c++) {
            Netlist.LogicalCell cell = netlist.cells().get(c);
            int spot = placement.siteOf(packed.blockOfCell()[c]);
            cells.add(new Cell(c, cell.name(), cell.kind(), site(c, spot), cell.settings()));
        }
        return cells;
    }

    private int site(int cell, int spot) {
        if (sites.isPad(spot)) {
            return fabric.pads().get(sites.pad(spot)).dataSite();
        }
        return packed.firstOfCell()[cell] == Fabric.NOTHING
                ? places.siteFor(spot, netlist.cells().get(cell).kind())
                : places.secondOf(spot);
    }

    private List<Port> ports() {
        List<Port> ports = new ArrayList<>();
        for (int p = 0; p < netlist.ports().size(); p++) {
            Netlist.LogicalPort port = netlist.ports().get(p);
            int pad = sites.pad(placement.siteOf(packed.blockOfPort()[p]));
            ports.add(new Port(p, port.name(), port.direction(), pad, ""));
        }
        return ports;
    }

    /** The pads to which one net comes while another one begins there. */
    private BitSet bothWays(List<Port> ports) {
        BitSet pads = new BitSet();
        ports.stream()
                .filter(p -> p.direction() == PortDirection.BOTH)
                .forEach(p -> pads.set(fabric.pads().get(p.pad()).vertex()));
        return pads;
    }

    private int vertex(List<Cell> cells, List<Port> ports, Terminal end) {
        if (end instanceof Terminal.CellPin at) {
            return fabric.site(cells.get(at.cell()).site()).findPin(at.pin());
        }
        Terminal.PortEnd port = (Terminal.PortEnd) end;
        return port.vertexOn(fabric, ports.get(port.port()));
    }

    /** The pins that can take the signal of an end; one that is constant cannot. */
    private List<Integer> alike(List<Cell> cells, Terminal end) {
        if (!(end instanceof Terminal.CellPin at)) {
            return List.of();
        }
        Cell cell = cells.get(at.cell());
        SiteView site = fabric.site(cell.site());
        return AlikePins.of(fabric, site, cell.kind(), at.pin()).stream()
                .filter(pin -> !cell.isTied(pin))
                .map(site::findPin)
                .toList();
    }

    /** A sink where it went, with what its cell's lookup table contains. */
    private Terminal swapped(Terminal sink, int vertex, List<Cell> cells) {
        if (!(sink instanceof Terminal.CellPin at)) {
            return sink;
        }
        Cell cell = cells.get(at.cell());
        SiteView site = fabric.site(cell.site());
        String pin = site.pins().get(vertex - site.firstPin()).name();
        if (pin.equals(at.pin())) {
            return sink;
        }
        cells.set(at.cell(), cell.withSwapped(fabric, at.pin(), pin));
        return new Terminal.CellPin(at.cell(), pin);
    }

    /** The routed nets, without sinks that their routes do not reach. */
    private List<Net> nets(
            List<PlacementRouter.Job> jobs, PlacementRouter.Result routed, List<Cell> cells) {
        List<Net> nets = new ArrayList<>();
        for (int n = 0; n < jobs.size(); n++) {
            Optional<RouteTree> tree = routed.trees().get(n);
            if (tree.isEmpty()) {
                continue;
            }
            Netlist.LogicalNet net = netlist.nets().get(n);
            List<Terminal> reached = new ArrayList<>();
            Map<Integer, Integer> places = places(tree.get());
            for (int s = 0; s < net.sinks().size(); s++) {
                int sink = routed.sinks().get(n)[s];
                if (places.containsKey(sink)) {
                    reached.add(swapped(net.sinks().get(s), sink, cells));
                }
            }
            nets.add(
                    new Net(
                            nets.size(),
                            net.name(),
                            net.driver(),
                            reached,
                            tree.get(),
                            net.clock()));
        }
        return nets;
    }

    private static Map<Integer, Integer> places(RouteTree tree) {
        Map<Integer, Integer> places = new HashMap<>();
        for (int place = 0; place < tree.size(); place++) {
            places.put(tree.vertex(place), place);
        }
        return places;
    }

    private PlaceRouteResult.Report report(
            Design design, List<PlacementRouter.Job> jobs, PlacementRouter.Result routed) {
        int tiles = 0;
        for (int n = 0; n < cost.netCount(); n++) {
            tiles += cost.halfPerimeter(n);
        }
        int wires = 0;
        for (Net net : design.nets()) {
            for (int place = 0; place < net.route().size(); place++) {
                wires += fabric.kind(net.route().vertex(place)) == VertexKind.WIRE ? 1 : 0;
            }
        }
        int used = 0;
        for (int register : packed.registerOfPort()) {
            used += register == Fabric.NOTHING ? 0 : 1;
        }
        ArrivalTimes.Path worst = times.latest(delays(jobs, routed));
        List<String> notes = new ArrayList<>();
        if (times.cut() > 0) {
            notes.add(times.cut() + " loops without a register are left out of the delays");
        }
        return new PlaceRouteResult.Report(
                uses(),
                used,
                tiles,
                wires,
                (int) Math.round(worst.delayPs()),
                worst.steps().stream().map(this::text).toList(),
                routed.reasons(),
                notes);
    }

    private String text(ArrivalTimes.Step step) {
        Netlist.LogicalNet net = netlist.nets().get(step.net());
        return net.name() + " to " + text(net.sinks().get(step.sink()));
    }

    private String text(Terminal end) {
        return end instanceof Terminal.CellPin at
                ? netlist.cells().get(at.cell()).name() + "." + at.pin()
                : "port " + netlist.ports().get(((Terminal.PortEnd) end).port()).name();
    }

    /** Delays of the routes; 0 for what was not routed. */
    private ArrivalTimes.NetDelay delays(
            List<PlacementRouter.Job> jobs, PlacementRouter.Result routed) {
        int[][] ps = new int[jobs.size()][];
        for (int n = 0; n < ps.length; n++) {
            ps[n] = new int[jobs.get(n).sinks().length];
            Optional<RouteTree> tree = routed.trees().get(n);
            if (tree.isPresent() && ps[n].length > 0) {
                TreeDelays delays = TreeDelays.of(fabric, tree.get());
                Map<Integer, Integer> places = places(tree.get());
                for (int s = 0; s < ps[n].length; s++) {
                    Integer place = places.get(routed.sinks().get(n)[s]);
                    ps[n][s] = place == null ? 0 : delays.at(place).slowPs();
                }
            }
        }
        return (net, sink) -> ps[net][sink];
    }

    private List<PlaceRouteResult.Use> uses() {
        Map<Integer, Integer> used = new LinkedHashMap<>();
        for (int group : packed.groupOfBlock()) {
            used.merge(group, 1, Integer::sum);
        }
        List<PlaceRouteResult.Use> uses = new ArrayList<>();
        for (Map.Entry<Integer, Integer> entry : used.entrySet()) {
            int places = 0;
            for (int spot = 0; spot < sites.count(); spot++) {
                places += sites.accepts(spot, entry.getKey()) ? 1 : 0;
            }
            uses.add(
                    new PlaceRouteResult.Use(
                            packed.groups().get(entry.getKey()), entry.getValue(), places));
        }
        return uses;
    }
}
