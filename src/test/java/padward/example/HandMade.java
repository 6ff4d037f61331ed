package padward.example;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.NetLock;
import padward.design.PadNames;
import padward.design.Port;
import padward.design.PortDirection;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.design.board.Board;
import padward.fabric.CellKind;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.FabricInfo;
import padward.fabric.PinDirection;
import padward.fabric.SitePin;
import padward.fabric.delay.AtCorners;
import padward.fabric.delay.Delay;
import padward.fabric.explicit.ExplicitBuilder;
import padward.fabric.pad.Bank;
import padward.fabric.pad.DriverSetting;
import padward.fabric.pad.PadDirections;
import padward.fabric.pad.PadDriverOutput;
import padward.fabric.pad.PadDriving;
import padward.fabric.pad.PadEnable;
import padward.fabric.pad.PadUse;

/**
 * A fabric of one tile and a design on it, written down in a few lines: names are separated by
 * blanks, a pin is {@code site.pin}, and a chain of vertices stands for the switches between them.
 */
public final class HandMade {
    private final List<DriverSetting> settings = new ArrayList<>();
    private final List<Bank> banks = new ArrayList<>();
    private final List<String> wires = new ArrayList<>();
    private final List<Site> sites = new ArrayList<>();
    private final List<PadLine> pads = new ArrayList<>();
    private final List<Edge> edges = new ArrayList<>();
    private final Map<String, List<String>> switchGroups = new LinkedHashMap<>();
    private final List<CellLine> cells = new ArrayList<>();
    private final List<PortLine> ports = new ArrayList<>();
    private final List<NetLine> nets = new ArrayList<>();

    private final List<String> unusable = new ArrayList<>();
    private final Set<String> lockedCells = new HashSet<>();
    private final Map<String, NetLock> locks = new HashMap<>();

    private Board board = Board.UNKNOWN;
    private CellKind kind = new CellKind("register", true);
    private final List<CellKind> otherKinds = new ArrayList<>();
    private final Map<String, String> kindOfCell = new HashMap<>();
    private final Map<String, String> dataSites = new HashMap<>();

    private record Site(String name, String part, String in, String out) {}

    private record PadLine(
            String name,
            PadDirections to,
            String bank,
            String enable,
            String set,
            PadEnable traits,
            PadUse use) {

        PadLine(
                String name,
                PadDirections to,
                String bank,
                String enable,
                String set,
                PadEnable traits) {
            this(name, to, bank, enable, set, traits, PadUse.UNSTATED);
        }
    }

    private record Edge(String from, String to, EdgeKind kind, Delay delay) {}

    private record CellLine(String name, String site, Map<String, String> settings) {}

    private record PortLine(String name, PortDirection direction, String pad, String setting) {}

    private record NetLine(String name, String driver, String sinks, List<String> branches) {}

    private static String[] words(String text) {
        return text.isBlank() ? new String[0] : text.trim().split(" +");
    }

    /** A setting of pads' drivers, with a delay of 100 to 200 ps. */
    public HandMade setting(String name, int millivolts) {
        Delay delay = new Delay(100, 200);
        settings.add(new DriverSetting(name, name, millivolts, 8, "slow", delay));
        return this;
    }

    /** A setting with all that matters for its choice. */
    public HandMade setting(
            String name, String standard, int millivolts, int milliamps, String slew, int mostMhz) {
        Delay delay = new Delay(100, 200);
        Optional<PadDriverOutput> output =
                mostMhz == 0
                        ? Optional.empty()
                        : Optional.of(
                                new PadDriverOutput(
                                        10, Delay.ZERO, new AtCorners(25, 45), mostMhz));
        settings.add(
                new DriverSetting(
                        name, standard, millivolts, milliamps, slew, delay, output, false));
        return this;
    }

    /** The board. */
    public HandMade board(Board all) {
        board = all;
        return this;
    }

    /** A kind of cell, in the place of the one that is there by that name. */
    public HandMade kind(CellKind other) {
        kind = other;
        return this;
    }

    /** Another kind of cell, and the cells that are of it. */
    public HandMade otherKind(CellKind other, String cells) {
        otherKinds.add(other);
        for (String cell : words(cells)) {
            kindOfCell.put(cell, other.name());
        }
        return this;
    }

    /** The site through which signals come to a pad's driver. */
    public HandMade dataSite(String pad, String site) {
        dataSites.put(pad, site);
        return this;
    }

    /** A bank. */
    public HandMade bank(String name, int millivolts) {
        banks.add(new Bank(name, millivolts));
        return this;
    }

    /** Some wires. */
    public HandMade wires(String names) {
        wires.addAll(List.of(words(names)));
        return this;
    }

    /**
     * A site with its pins; it accepts all cells. An in pin may state what it is alike in: {@code
     * a~x}.
     */
    public HandMade site(String name, String in, String out) {
        sites.add(new Site(name, "", in, out));
        return this;
    }

    /** A part of a site, with the names of its pins inside the site; it accepts all cells. */
    public HandMade part(String site, String part, String in, String out) {
        sites.add(new Site(site, part, in, out));
        return this;
    }

    /** A pass-through. */
    public HandMade through(String site, String from, String to) {
        Delay delay = new Delay(1, 2);
        edges.add(new Edge(site + "." + from, site + "." + to, EdgeKind.PASS_THROUGH, delay));
        return this;
    }

    /** A pad in both directions. */
    public HandMade pad(String name) {
        return pad(name, PadDirections.BOTH, "", "", "");
    }

    /** A pad whose driver has an enable on a site. */
    public HandMade enabledPad(String name, String site) {
        return pad(name, PadDirections.BOTH, "", site, "");
    }

    /** A pad with all that can be said about it. */
    public HandMade pad(
            String name, PadDirections directions, String bank, String enable, String setting) {
        pads.add(new PadLine(name, directions, bank, enable, setting, PadEnable.UNKNOWN));
        return this;
    }

    /** A pad of whose driving something is known. */
    public HandMade drivenPad(String name, String bank, String setting, PadDriving driving) {
        pads.add(
                new PadLine(
                        name,
                        PadDirections.BOTH,
                        bank,
                        "",
                        setting,
                        PadEnable.UNKNOWN,
                        new PadUse(
                                PadUse.Bonding.UNKNOWN, PadUse.Role.GENERAL, Delay.ZERO, driving)));
        return this;
    }

    /** A pad of whose use something is known. */
    public HandMade usedPad(String name, PadUse.Bonding bonding, PadUse.Role role) {
        PadUse use = new PadUse(bonding, role);
        pads.add(new PadLine(name, PadDirections.BOTH, "", "", "", PadEnable.UNKNOWN, use));
        return this;
    }

    /** A pad of whose enable something is known. */
    public HandMade enabledPad(String name, String site, PadEnable traits) {
        pads.add(new PadLine(name, PadDirections.BOTH, "", site, "", traits));
        return this;
    }

    /** Switches from each vertex to the next, of 1 to 2 ps each. */
    public HandMade chain(String vertices) {
        return chain(vertices, 1, 2);
    }

    /** Switches from each vertex to the next. */
    public HandMade chain(String vertices, int fastPs, int slowPs) {
        String[] names = words(vertices);
        for (int i = 1; i < names.length; i++) {
            Delay delay = new Delay(fastPs, slowPs);
            edges.add(new Edge(names[i - 1], names[i], EdgeKind.SWITCH, delay));
        }
        return this;
    }

    /** A group of switches of which one can be on, {@code from to} each. */
    public HandMade switchGroup(String name, String... switches) {
        switchGroups.put(name, List.of(switches));
        return this;
    }

    /** Wires and sites that are not to be used. */
    public HandMade unusable(String names) {
        unusable.addAll(List.of(words(names)));
        return this;
    }

    /** A cell that must stay. */
    public HandMade lockCell(String cell) {
        lockedCells.add(cell);
        return this;
    }

    /** A net that must stay. */
    public HandMade lockNet(String net, NetLock lock) {
        locks.put(net, lock);
        return this;
    }

    /** A register. */
    public HandMade cell(String name, String site) {
        return cell(name, site, Map.of());
    }

    /** A cell with settings. */
    public HandMade cell(String name, String site, Map<String, String> settings) {
        cells.add(new CellLine(name, site, settings));
        return this;
    }

    /** A register that lets signals through its site. */
    public HandMade openCell(String name, String site) {
        cells.add(new CellLine(name, site, Map.of("through", "open")));
        return this;
    }

    /** A port that states no setting. */
    public HandMade port(String name, PortDirection direction, String pad) {
        return port(name, direction, pad, "");
    }

    /** A port. */
    public HandMade port(String name, PortDirection direction, String pad, String setting) {
        ports.add(new PortLine(name, direction, pad, setting));
        return this;
    }

    /**
     * A net.
     *
     * @param driver {@code cell.pin} or the name of a port
     * @param sinks the same, or {@code enable:PORT}
     * @param branches chains of vertices
     */
    public HandMade net(String name, String driver, String sinks, String... branches) {
        nets.add(new NetLine(name, driver, sinks, List.of(branches)));
        return this;
    }

    /** The fabric alone. */
    public Fabric fabric() {
        List<CellKind> kinds = new ArrayList<>(List.of(kind));
        kinds.addAll(otherKinds);
        List<String> accepted = kinds.stream().map(CellKind::name).toList();
        FabricInfo info = new FabricInfo("handmade", "invented", kinds, settings, banks);
        ExplicitBuilder builder = new ExplicitBuilder(info, 1, 1);
        wires.forEach(w -> builder.addWire(w, 0, 0, "general"));
        for (Site site : sites) {
            List<SitePin> pins = new ArrayList<>();
            for (String pin : words(site.in())) {
                String[] parts = pin.split("~");
                String alike = parts.length > 1 ? parts[1] : "";
                pins.add(new SitePin(parts[0], PinDirection.IN, alike));
            }
            for (String pin : words(site.out())) {
                pins.add(new SitePin(pin, PinDirection.OUT));
            }
            if (site.part().isEmpty()) {
                builder.addSite(site.name(), 0, "logic", accepted, pins);
            } else {
                builder.addPart(site.name(), site.part(), List.of(0), "logic", accepted, pins);
            }
        }
        for (PadLine pad : pads) {
            int enable = pad.enable().isEmpty() ? Fabric.NOTHING : builder.findSite(pad.enable());
            builder.addPad(
                    pad.name(),
                    0,
                    "",
                    pad.bank(),
                    pad.to(),
                    builder.findSite(dataSites.getOrDefault(pad.name(), "")),
                    enable,
                    pad.set(),
                    pad.use(),
                    pad.traits());
        }
        for (Edge edge : edges) {
            builder.addEdge(
                    builder.findVertex(edge.from()),
                    builder.findVertex(edge.to()),
                    edge.kind(),
                    edge.delay());
        }
        switchGroups.forEach(
                (name, switches) -> {
                    for (String one : switches) {
                        String[] ends = words(one);
                        int from = builder.findVertex(ends[0]);
                        builder.addToSwitchGroup(name, from, builder.findVertex(ends[1]));
                    }
                });
        for (String name : unusable) {
            if (wires.contains(name)) {
                builder.setWireUnusable(builder.findVertex(name));
            } else {
                builder.setSiteUnusable(builder.findSite(name));
            }
        }
        Fabric fabric = builder.build();
        if (!builder.noSwitches().isEmpty()) {
            throw new IllegalArgumentException("no switches: " + builder.noSwitches());
        }
        return fabric;
    }

    /** The design on its fabric. */
    public Design design() {
        Fabric fabric = fabric();
        List<Cell> made = new ArrayList<>();
        Map<String, Integer> numbers = new HashMap<>();
        for (CellLine cell : cells) {
            numbers.put(cell.name(), made.size());
            int site = fabric.findSite(cell.site());
            boolean locked = lockedCells.contains(cell.name());
            String of = kindOfCell.getOrDefault(cell.name(), "register");
            made.add(new Cell(made.size(), cell.name(), of, site, cell.settings(), locked));
        }
        List<Port> there = new ArrayList<>();
        for (PortLine port : ports) {
            numbers.put(port.name(), there.size());
            int pad = PadNames.findExact(fabric, port.pad()).orElseThrow();
            there.add(new Port(there.size(), port.name(), port.direction(), pad, port.setting()));
        }
        List<Net> routed = new ArrayList<>();
        for (NetLine net : nets) {
            List<Terminal> sinks = new ArrayList<>();
            for (String sink : words(net.sinks())) {
                sinks.add(terminal(sink, numbers));
            }
            Terminal driver = terminal(net.driver(), numbers);
            RouteTree.Builder tree = new RouteTree.Builder(vertex(fabric, driver, made, there));
            for (String branch : net.branches()) {
                String[] names = words(branch);
                for (int i = 1; i < names.length; i++) {
                    tree.add(fabric.findVertex(names[i - 1]), fabric.findVertex(names[i]));
                }
            }
            routed.add(
                    new Net(routed.size(), net.name(), driver, sinks, tree.build(), false)
                            .withLock(locks.getOrDefault(net.name(), NetLock.NONE)));
        }
        return new Design("handmade", "invented", fabric, board, made, routed, there);
    }

    private static Terminal terminal(String text, Map<String, Integer> numbers) {
        int dot = text.indexOf('.');
        if (text.startsWith("enable:")) {
            return Terminal.PortEnd.enableOf(numbers.get(text.substring("enable:".length())));
        }
        return dot < 0
                ? new Terminal.PortEnd(numbers.get(text))
                : new Terminal.CellPin(
                        numbers.get(text.substring(0, dot)), text.substring(dot + 1));
    }

    private static int vertex(Fabric fabric, Terminal end, List<Cell> cells, List<Port> ports) {
        if (end instanceof Terminal.CellPin at) {
            return fabric.site(cells.get(at.cell()).site()).findPin(at.pin());
        }
        return fabric.pads().get(ports.get(((Terminal.PortEnd) end).port()).pad()).vertex();
    }
}
