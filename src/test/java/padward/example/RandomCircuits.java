package padward.example;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;
import java.util.Set;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Port;
import padward.design.PortDirection;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.design.board.Board;
import padward.fabric.CellKind;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.FabricInfo;
import padward.fabric.PinDirection;
import padward.fabric.SitePin;
import padward.fabric.VertexKind;
import padward.fabric.delay.Delay;
import padward.fabric.explicit.ExplicitBuilder;
import padward.fabric.pad.PadDirections;

/**
 * Small random explicit fabrics with random designs on them, much more tangled than real ones:
 * sites with two parallel pass-throughs, nets through sites, cells with two outputs, cells that let
 * signals pass through, pads that lead on, enables, ports that drive nets.
 */
public final class RandomCircuits {
    /**
     * What may occur.
     *
     * @param openCells cells that let signals pass through
     * @param enables pads whose driver has an enable
     * @param inputs ports that drive nets
     */
    public record Sorts(boolean openCells, boolean enables, boolean inputs) {}

    private final Random random;
    private final Sorts sorts;
    private Fabric fabric;
    private final List<Cell> cells = new ArrayList<>();
    private final List<Port> ports = new ArrayList<>();
    private final List<Net> nets = new ArrayList<>();
    private final Map<Integer, Integer> cellOn = new HashMap<>();
    private final Map<Integer, Integer> netOn = new HashMap<>();
    private final Map<Integer, Integer> netThrough = new HashMap<>();
    private final Set<Integer> roots = new HashSet<>();

    private RandomCircuits(long seed, Sorts sorts) {
        this.random = new Random(seed);
        this.sorts = sorts;
    }

    private record Driver(Terminal terminal, int vertex) {}

    /** A design; empty when it happens to have no nets. */
    public static Optional<Design> make(long seed, Sorts sorts) {
        RandomCircuits made = new RandomCircuits(seed, sorts);
        made.makeFabric();
        made.makeCellsAndPorts();
        if (!made.cells.isEmpty()) {
            made.makeNets();
        }
        return made.nets.isEmpty()
                ? Optional.empty()
                : Optional.of(
                        new Design(
                                "random",
                                "invented",
                                made.fabric,
                                Board.UNKNOWN,
                                made.cells,
                                made.nets,
                                made.ports));
    }

    private void makeFabric() {
        FabricInfo info =
                new FabricInfo(
                        "random",
                        "invented",
                        List.of(new CellKind("register", true), new CellKind("lut", false)),
                        List.of(),
                        List.of());
        ExplicitBuilder builder = new ExplicitBuilder(info, 2, 2);
        int wires = 8 + random.nextInt(10);
        int sites = 4 + random.nextInt(5);
        int pads = 2 + random.nextInt(2);
        for (int i = 0; i < wires; i++) {
            builder.addWire("w" + i, random.nextInt(4), random.nextInt(4), "general");
        }
        List<SitePin> pins =
                List.of(
                        new SitePin("a", PinDirection.IN),
                        new SitePin("b", PinDirection.IN),
                        new SitePin("x", PinDirection.OUT),
                        new SitePin("y", PinDirection.OUT));
        int[] tiles = random.ints(sites, 0, 4).sorted().toArray();
        for (int i = 0; i < sites; i++) {
            builder.addSite("s" + i, tiles[i], "logic", List.of("register", "lut"), pins);
        }
        for (int i = 0; i < pads; i++) {
            boolean enabled = sorts.enables() && random.nextBoolean();
            int enable = enabled ? random.nextInt(sites) : Fabric.NOTHING;
            builder.addPad("p" + i, 0, "", "", PadDirections.BOTH, i, enable, "");
        }
        for (int i = 0; i < sites; i++) {
            connectSite(builder, i, wires);
        }
        for (int i = 0; i < 2 * wires; i++) {
            int to = random.nextInt(wires);
            if (to != i / 2) {
                edge(builder, "w" + i / 2, "w" + to, EdgeKind.SWITCH);
            }
        }
        for (int i = 0; i < pads; i++) {
            edge(builder, "s" + i + ".x", "p" + i, EdgeKind.CONNECTION);
            if (random.nextInt(3) == 0) {
                edge(builder, "w" + random.nextInt(wires), "p" + i, EdgeKind.SWITCH);
            }
            edge(builder, "p" + i, "w" + random.nextInt(wires), EdgeKind.CONNECTION);
        }
        fabric = builder.build();
    }

    private void connectSite(ExplicitBuilder builder, int site, int wires) {
        edge(builder, "s" + site + ".a", "s" + site + ".x", EdgeKind.PASS_THROUGH);
        if (random.nextBoolean()) {
            edge(builder, "s" + site + ".b", "s" + site + ".y", EdgeKind.PASS_THROUGH);
        }
        for (int k = 0; k < 2; k++) {
            for (String in : List.of("a", "b")) {
                String wire = "w" + random.nextInt(wires);
                edge(builder, wire, "s" + site + "." + in, EdgeKind.SWITCH);
            }
            for (String out : List.of("x", "y")) {
                String wire = "w" + random.nextInt(wires);
                edge(builder, "s" + site + "." + out, wire, EdgeKind.SWITCH);
            }
        }
    }

    private void edge(ExplicitBuilder builder, String from, String to, EdgeKind kind) {
        int fast = 1 + random.nextInt(30);
        Delay delay = new Delay(fast, fast + random.nextInt(30));
        builder.addEdge(builder.findVertex(from), builder.findVertex(to), kind, delay);
    }

    private void makeCellsAndPorts() {
        for (int site = 0; site < fabric.siteCount(); site++) {
            if (random.nextInt(10) < 6) {
                boolean open = sorts.openCells() && random.nextInt(3) == 0;
                cellOn.put(site, cells.size());
                cells.add(
                        new Cell(
                                cells.size(),
                                "c" + cells.size(),
                                random.nextBoolean() ? "register" : "lut",
                                site,
                                open ? Map.of("through", "open") : Map.of()));
            }
        }
        for (int pad = 0; pad < fabric.pads().size(); pad++) {
            if (random.nextInt(3) > 0) {
                boolean in = sorts.inputs() && random.nextInt(3) == 0;
                PortDirection direction = in ? PortDirection.IN : PortDirection.OUT;
                ports.add(new Port(ports.size(), "q" + pad, direction, pad, ""));
            }
        }
    }

    private void makeNets() {
        List<Driver> drivers = new ArrayList<>();
        for (Cell cell : cells) {
            for (String pin : random.nextBoolean() ? List.of("x", "y") : List.of("x")) {
                int vertex = fabric.site(cell.site()).findPin(pin);
                drivers.add(new Driver(new Terminal.CellPin(cell.id(), pin), vertex));
            }
        }
        for (Port port : ports) {
            if (port.direction() == PortDirection.IN && random.nextBoolean()) {
                int vertex = fabric.pads().get(port.pad()).vertex();
                drivers.add(new Driver(new Terminal.PortEnd(port.id()), vertex));
            }
        }
        Collections.shuffle(drivers, random);
        drivers.forEach(d -> roots.add(d.vertex()));
        Set<Integer> sunk = new HashSet<>();
        drivers.forEach(d -> makeNet(d, sunk));
    }

    private void makeNet(Driver driver, Set<Integer> sunk) {
        if (netOn.containsKey(driver.vertex())) {
            return;
        }
        int id = nets.size();
        RouteTree.Builder tree = new RouteTree.Builder(driver.vertex());
        List<Integer> onTree = new ArrayList<>(List.of(driver.vertex()));
        netOn.put(driver.vertex(), id);
        List<Terminal> sinks = new ArrayList<>();
        for (int k = random.nextInt(4); k > 0; k--) {
            Optional<Terminal> sink = anySink();
            int goal = sink.map(this::vertexOf).orElse(Fabric.NOTHING);
            boolean taken =
                    sink.isEmpty() || sunk.contains(goal) || netOn.getOrDefault(goal, id) != id;
            if (!taken && (onTree.contains(goal) || extend(id, tree, onTree, goal))) {
                sunk.add(goal);
                sinks.add(sink.get());
            }
        }
        OptionalInt required =
                random.nextInt(3) == 0 ? OptionalInt.of(random.nextInt(200)) : OptionalInt.empty();
        nets.add(new Net(id, "n" + id, driver.terminal(), sinks, tree.build(), false, required));
    }

    private Optional<Terminal> anySink() {
        if (!ports.isEmpty() && random.nextInt(4) == 0) {
            Port port = ports.get(random.nextInt(ports.size()));
            return port.direction() == PortDirection.IN
                    ? Optional.empty()
                    : Optional.of(new Terminal.PortEnd(port.id()));
        }
        Cell cell = cells.get(random.nextInt(cells.size()));
        return Optional.of(new Terminal.CellPin(cell.id(), random.nextBoolean() ? "a" : "b"));
    }

    private int vertexOf(Terminal terminal) {
        if (terminal instanceof Terminal.CellPin at) {
            return fabric.site(cells.get(at.cell()).site()).findPin(at.pin());
        }
        return fabric.pads().get(ports.get(((Terminal.PortEnd) terminal).port()).pad()).vertex();
    }

    private boolean extend(int net, RouteTree.Builder tree, List<Integer> onTree, int goal) {
        Map<Integer, Integer> before = new HashMap<>();
        Deque<Integer> queue = new ArrayDeque<>();
        List<Integer> starts = new ArrayList<>(onTree);
        Collections.shuffle(starts, random);
        starts.forEach(
                v -> {
                    before.put(v, Fabric.NOTHING);
                    queue.add(v);
                });
        EdgeCursor edges = fabric.edgesOut();
        while (!queue.isEmpty() && !before.containsKey(goal)) {
            int vertex = queue.poll();
            edges.reset(vertex);
            while (edges.next()) {
                int next = edges.other();
                boolean through = edges.kind() == EdgeKind.PASS_THROUGH;
                if (!before.containsKey(next) && mayEnter(net, next, goal, through)) {
                    before.put(next, vertex);
                    queue.add(next);
                }
            }
        }
        if (!before.containsKey(goal)) {
            return false;
        }
        List<Integer> path = new ArrayList<>();
        for (int v = goal; v != Fabric.NOTHING; v = before.get(v)) {
            path.add(0, v);
        }
        for (int i = 1; i < path.size(); i++) {
            int from = path.get(i - 1);
            int to = path.get(i);
            tree.add(from, to);
            onTree.add(to);
            netOn.put(to, net);
            if (fabric.siteOf(to) != Fabric.NOTHING && fabric.siteOf(from) == fabric.siteOf(to)) {
                netThrough.put(fabric.siteOf(to), net);
            }
        }
        return true;
    }

    private boolean mayEnter(int net, int vertex, int goal, boolean through) {
        boolean foreignPad = fabric.kind(vertex) == VertexKind.PAD && vertex != goal;
        if (netOn.containsKey(vertex) || roots.contains(vertex) || foreignPad) {
            return false;
        }
        int site = fabric.siteOf(vertex);
        if (site == Fabric.NOTHING) {
            return true;
        }
        boolean othersGoThrough = netThrough.getOrDefault(site, net) != net;
        Integer cell = cellOn.get(site);
        if (vertex == goal && !through) {
            return cell != null || !othersGoThrough;
        }
        boolean shut = cell != null && !cells.get(cell).letsThrough();
        return !shut && !othersGoThrough && !(cell == null && othersOn(site, net));
    }

    private boolean othersOn(int site, int net) {
        int first = fabric.site(site).firstPin();
        for (int pin = first; pin < first + 4; pin++) {
            if (netOn.getOrDefault(pin, net) != net) {
                return true;
            }
        }
        return false;
    }
}
