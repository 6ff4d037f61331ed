package padward.format;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import java.util.ArrayList;
import java.util.List;
import padward.base.BadInput;
import padward.design.Cell;
import padward.design.Net;
import padward.design.Port;
import padward.design.PortDirection;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.PinDirection;
import padward.fabric.SiteView;

/** Reads a design's nets and checks their routes against the fabric. */
final class NetReader {
    private static final Shape NET = Shape.of("name!", "clock", "driver!", "sinks", "route");
    private static final Shape TERMINAL = Shape.of("cell", "pin", "port");

    private final Fabric fabric;
    private final List<Cell> cells;
    private final Names cellNames;
    private final List<Port> ports;
    private final Names portNames;
    private final Names netNames = new Names("net");
    private final EdgeCursor edges;
    private final Int2IntOpenHashMap netByVertex = new Int2IntOpenHashMap();
    private final Int2IntOpenHashMap cellBySite = new Int2IntOpenHashMap();
    private final List<Net> nets = new ArrayList<>();

    NetReader(Fabric fabric, List<Cell> cells, Names cellNames, List<Port> ports, Names portNames) {
        this.fabric = fabric;
        this.cells = cells;
        this.cellNames = cellNames;
        this.ports = ports;
        this.portNames = portNames;
        this.edges = fabric.edgesOut();
        netByVertex.defaultReturnValue(Fabric.NOTHING);
        cellBySite.defaultReturnValue(Fabric.NOTHING);
        cells.forEach(c -> cellBySite.put(c.site(), c.id()));
    }

    List<Net> nets() {
        return nets;
    }

    void read(JsonIn in) throws BadInput {
        in.beginArray();
        while (in.more()) {
            readNet(in);
        }
        in.endArray();
    }

    /** A place on the fabric, and where in the file it was named. */
    private record Named(int vertex, String place) {}

    private void readNet(JsonIn in) throws BadInput {
        String name = "";
        boolean clock = false;
        Terminal driver = null;
        List<Terminal> sinks = List.of();
        List<List<Named>> route = List.of();
        Members member = in.object(NET);
        while (member.next()) {
            switch (member.name()) {
                case "name" -> name = netNames.readNew(in);
                case "clock" -> clock = in.flag();
                case "driver" -> driver = readTerminal(in, true);
                case "sinks" -> sinks = in.list(i -> readTerminal(i, false));
                default -> route = in.list(i -> i.list(this::readVertex));
            }
        }
        RouteTree tree = tree(in, vertexOf(driver), route);
        for (int i = 0; i < sinks.size(); i++) {
            if (!route.isEmpty() && tree.placeOf(vertexOf(sinks.get(i))) == Fabric.NOTHING) {
                throw in.faultAt(
                        in.place() + ".sinks[" + i + "]",
                        "a sink that the route of net " + Text.quote(name) + " reaches",
                        Text.quote(fabric.vertexName(vertexOf(sinks.get(i)))));
            }
        }
        nets.add(new Net(nets.size(), name, driver, sinks, tree, clock));
    }

    private int vertexOf(Terminal terminal) {
        if (terminal instanceof Terminal.CellPin at) {
            return fabric.site(cells.get(at.cell()).site()).findPin(at.pin());
        }
        return fabric.pads().get(ports.get(((Terminal.PortEnd) terminal).port()).pad()).vertex();
    }

    private Terminal readTerminal(JsonIn in, boolean drives) throws BadInput {
        int cell = Fabric.NOTHING;
        String pin = "";
        int port = Fabric.NOTHING;
        Members member = in.object(TERMINAL);
        while (member.next()) {
            switch (member.name()) {
                case "cell" -> cell = cellNames.readKnown(in);
                case "pin" -> pin = in.word();
                default -> port = portNames.readKnown(in);
            }
        }
        boolean cellPin = member.has("cell") && member.has("pin") && !member.has("port");
        boolean portOnly = member.has("port") && !member.has("cell") && !member.has("pin");
        if (cellPin) {
            return checkedPin(in, cell, pin, drives);
        }
        if (portOnly) {
            PortDirection wrong = drives ? PortDirection.OUT : PortDirection.IN;
            if (ports.get(port).direction() == wrong) {
                throw in.fault(
                        drives ? "a port through which signals come in" : "a port that goes out",
                        Text.quote(ports.get(port).name()) + ", which is " + wrong.label());
            }
            return new Terminal.PortEnd(port);
        }
        throw in.fault("\"cell\" with \"pin\", or \"port\"", "another mixture");
    }

    private Terminal checkedPin(JsonIn in, int cell, String pin, boolean drives) throws BadInput {
        SiteView site = fabric.site(cells.get(cell).site());
        int vertex = site.findPin(pin);
        if (vertex == Fabric.NOTHING) {
            throw in.fault(
                    "a pin of site " + site.name(),
                    Nearest.describe(pin, site.pins().stream().map(p -> p.name())));
        }
        PinDirection wanted = drives ? PinDirection.OUT : PinDirection.IN;
        if (site.pins().get(vertex - site.firstPin()).direction() != wanted) {
            throw in.fault("an " + Labels.of(wanted) + " pin", Text.quote(pin));
        }
        return new Terminal.CellPin(cell, pin);
    }

    private Named readVertex(JsonIn in) throws BadInput {
        String name = in.name();
        int vertex = fabric.findVertex(name);
        if (vertex == Fabric.NOTHING) {
            throw in.fault("the name of a wire, a pin or a pad of the fabric", Text.quote(name));
        }
        return new Named(vertex, in.place());
    }

    private RouteTree tree(JsonIn in, int root, List<List<Named>> route) throws BadInput {
        RouteTree.Builder tree = new RouteTree.Builder(root);
        take(in, new Named(root, in.place()));
        for (int b = 0; b < route.size(); b++) {
            List<Named> branch = route.get(b);
            if (branch.size() < 2) {
                throw in.faultAt(
                        in.place() + ".route[" + b + "]",
                        "two vertices at least",
                        "" + branch.size());
            }
            Named start = branch.get(0);
            if (!tree.contains(start.vertex())) {
                String expected =
                        b == 0
                                ? "the driver's vertex, " + fabric.vertexName(root)
                                : "a vertex that an earlier branch has";
                throw in.faultAt(
                        start.place(), expected, Text.quote(fabric.vertexName(start.vertex())));
            }
            for (int i = 1; i < branch.size(); i++) {
                addEdge(in, tree, branch.get(i - 1), branch.get(i));
            }
        }
        return tree.build();
    }

    private void addEdge(JsonIn in, RouteTree.Builder tree, Named from, Named to) throws BadInput {
        EdgeKind kind = edgeKind(in, from, to);
        if (kind == EdgeKind.THROUGH) {
            checkThrough(in, to);
        }
        if (tree.contains(to.vertex())) {
            throw in.faultAt(
                    to.place(),
                    "a vertex that the net drives once",
                    Text.quote(fabric.vertexName(to.vertex())) + " driven twice");
        }
        take(in, to);
        tree.add(from.vertex(), to.vertex());
    }

    private EdgeKind edgeKind(JsonIn in, Named from, Named to) throws BadInput {
        edges.reset(from.vertex());
        while (edges.next()) {
            if (edges.other() == to.vertex()) {
                return edges.kind();
            }
        }
        throw in.faultAt(
                to.place(),
                "a vertex that a switch, joint or through-path leads to from "
                        + fabric.vertexName(from.vertex()),
                Text.quote(fabric.vertexName(to.vertex())) + ", to which none leads");
    }

    private void checkThrough(JsonIn in, Named to) throws BadInput {
        int cell = cellBySite.get(fabric.siteOf(to.vertex()));
        if (cell != Fabric.NOTHING && !cells.get(cell).letsThrough()) {
            throw in.faultAt(
                    to.place(),
                    "a site that lets signals through",
                    "one that cell " + Text.quote(cells.get(cell).name()) + " holds");
        }
    }

    private void take(JsonIn in, Named vertex) throws BadInput {
        int before = netByVertex.put(vertex.vertex(), nets.size());
        if (before != Fabric.NOTHING) {
            String other = before == nets.size() ? "this net" : "net " + nets.get(before).name();
            throw in.faultAt(
                    vertex.place(),
                    "a vertex that no other net drives",
                    Text.quote(fabric.vertexName(vertex.vertex())) + ", which " + other + " has");
        }
    }
}
