package padward.change;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.NetLock;
import padward.design.Port;
import padward.design.PortDirection;
import padward.design.RouteTree;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.PinDirection;
import padward.fabric.SiteView;
import padward.fabric.VertexKind;

/**
 * What edits mean, once more, in the plainest way: everything by name, in sets and maps, the whole
 * state looked through after each entry. Shares no code with what it judges; it reads a design
 * once, at the start. Written from docs/formats.md and docs/how-it-answers.md.
 */
public final class PlainState {
    /** A cell: what it is, where it stands, how it is set. */
    record PlainCell(String kind, String site, Map<String, String> settings, boolean locked) {}

    /** A port: which way it goes, and its pad. */
    record PlainPort(boolean out, boolean both, String pad, String setting, boolean tied) {}

    /**
     * A net: its driver and sinks as {@code cell.pin} or {@code port NAME}, its first vertex, and
     * for every other vertex the one that it is entered from.
     */
    record PlainNet(
            String driver,
            List<String> sinks,
            String root,
            Map<String, String> from,
            NetLock lock) {
        Set<String> on() {
            Set<String> result = new HashSet<>(from.keySet());
            result.add(root);
            return result;
        }
    }

    /** The fabric by names. */
    private static final class Chip {
        private final Map<String, Map<String, EdgeKind>> edges = new HashMap<>();
        private final Map<String, String> siteOf = new HashMap<>();
        private final Map<String, List<String>> pinsOf = new HashMap<>();
        private final Map<String, Set<String>> accepts = new HashMap<>();
        private final Map<String, String> vertexOfPad = new HashMap<>();
        private final Set<String> drivable = new HashSet<>();
        private final Set<String> readable = new HashSet<>();
        private final Set<String> outputs = new HashSet<>();
        private final Map<String, String> enableOf = new HashMap<>();

        /** The group of a switch, {@code from to}. */
        private final Map<String, String> groupOf = new HashMap<>();

        /** What a pin states as alike, by {@code site pin}. */
        private final Map<String, String> alike = new HashMap<>();

        private final Set<String> unusableVertices = new HashSet<>();
        private final Set<String> unusableSites = new HashSet<>();
    }

    private final Chip chip;
    private final Map<String, PlainCell> cells;
    private final Map<String, PlainPort> ports;
    private final Map<String, PlainNet> nets;

    private PlainState(
            Chip chip,
            Map<String, PlainCell> cells,
            Map<String, PlainPort> ports,
            Map<String, PlainNet> nets) {
        this.chip = chip;
        this.cells = cells;
        this.ports = ports;
        this.nets = nets;
    }

    /** The design as it is. */
    public static PlainState of(Design design) {
        Chip chip = chip(design.fabric());
        Map<String, PlainCell> cells = new TreeMap<>();
        Map<String, PlainPort> ports = new TreeMap<>();
        Map<String, PlainNet> nets = new TreeMap<>();
        Fabric fabric = design.fabric();
        for (Cell cell : design.cells()) {
            String site = fabric.site(cell.site()).name();
            cells.put(
                    cell.name(), new PlainCell(cell.kind(), site, cell.settings(), cell.locked()));
        }
        for (Port port : design.ports()) {
            String pad = fabric.pads().get(port.pad()).name();
            boolean out = port.direction() != PortDirection.IN;
            boolean both = port.direction() == PortDirection.BOTH;
            ports.put(
                    port.name(), new PlainPort(out, both, pad, port.setting(), port.enableTied()));
        }
        for (Net net : design.nets()) {
            Map<String, String> from = new LinkedHashMap<>();
            RouteTree tree = net.route();
            for (int place = 1; place < tree.size(); place++) {
                from.put(
                        fabric.vertexName(tree.vertex(place)),
                        fabric.vertexName(tree.vertex(tree.parent(place))));
            }
            nets.put(
                    net.name(),
                    new PlainNet(
                            design.textOf(net.driver()),
                            net.sinks().stream().map(design::textOf).toList(),
                            fabric.vertexName(tree.root()),
                            from,
                            net.lock()));
        }
        return new PlainState(chip, cells, ports, nets);
    }

    private static Chip chip(Fabric fabric) {
        Chip chip = new Chip();
        EdgeCursor edges = fabric.edgesOut();
        for (int vertex = 0; vertex < fabric.vertexCount(); vertex++) {
            Map<String, EdgeKind> to = new HashMap<>();
            edges.reset(vertex);
            while (edges.next()) {
                to.putIfAbsent(fabric.vertexName(edges.other()), edges.kind());
            }
            chip.edges.put(fabric.vertexName(vertex), to);
            if (fabric.kind(vertex) == VertexKind.WIRE && fabric.unusable().isVertex(vertex)) {
                chip.unusableVertices.add(fabric.vertexName(vertex));
            }
            for (int other = 0; other < fabric.vertexCount(); other++) {
                int group = fabric.switchGroups().groupOf(vertex, other);
                if (group != Fabric.NOTHING) {
                    chip.groupOf.put(
                            fabric.vertexName(vertex) + " " + fabric.vertexName(other),
                            fabric.switchGroups().name(group));
                }
            }
        }
        for (int site = 0; site < fabric.siteCount(); site++) {
            SiteView view = fabric.site(site);
            List<String> pins = new ArrayList<>();
            for (int pin = 0; pin < view.pins().size(); pin++) {
                String name = fabric.vertexName(view.firstPin() + pin);
                if (!view.pins().get(pin).alike().isEmpty()) {
                    String own = view.name() + " " + view.pins().get(pin).name();
                    chip.alike.put(own, view.pins().get(pin).alike());
                }
                pins.add(name);
                if (view.pins().get(pin).direction() == PinDirection.OUT) {
                    chip.outputs.add(name);
                }
                chip.siteOf.put(name, view.name());
            }
            chip.pinsOf.put(view.name(), pins);
            if (fabric.unusable().isSite(site)) {
                chip.unusableSites.add(view.name());
                chip.unusableVertices.addAll(pins);
            }
            chip.accepts.put(view.name(), new HashSet<>(view.accepts()));
        }
        for (Pad pad : fabric.pads()) {
            chip.vertexOfPad.put(pad.name(), fabric.vertexName(pad.vertex()));
            if (pad.enableSite() != Fabric.NOTHING) {
                chip.enableOf.put(pad.name(), fabric.site(pad.enableSite()).name());
            }
            if (pad.directions().canDrive()) {
                chip.drivable.add(pad.name());
            }
            if (pad.directions().canRead()) {
                chip.readable.add(pad.name());
            }
        }
        return chip;
    }

    private PlainState copy() {
        return new PlainState(
                chip, new TreeMap<>(cells), new TreeMap<>(ports), new TreeMap<>(nets));
    }

    /** The state after an entry; null when the entry does not fit. */
    public PlainState after(List<Edit> edits, Fabric fabric) {
        PlainState now = copy();
        for (boolean first : new boolean[] {true, false}) {
            for (Edit edit : edits) {
                boolean removes =
                        edit instanceof Edit.DisconnectPort
                                || edit instanceof Edit.RemoveCell
                                || edit instanceof Edit.RemoveNet
                                || edit instanceof Edit.SetCell;
                if (removes == first && !now.apply(edit, fabric, this)) {
                    return null;
                }
            }
        }
        boolean fits =
                now.isSound()
                        && now.reachesWhatItReached(this)
                        && now.comesToNoUsedPin(this)
                        && now.keepsLocked(this)
                        && now.comesToNothingUnusable(this);
        return fits ? now : null;
    }

    /** The state after edits that only remove, whether or not it kept every rule before. */
    public PlainState without(List<Edit> removals, Fabric fabric) {
        PlainState now = copy();
        for (Edit edit : removals) {
            now.apply(edit, fabric, this);
        }
        return now;
    }

    /** Whether all that was locked is as it was, or has branches more where it may. */
    public boolean keepsLocked(PlainState before) {
        for (Map.Entry<String, PlainCell> cell : before.cells.entrySet()) {
            boolean same = cell.getValue().equals(cells.get(cell.getKey()));
            if (cell.getValue().locked() && !same) {
                return false;
            }
        }
        for (Map.Entry<String, PlainNet> entry : before.nets.entrySet()) {
            PlainNet old = entry.getValue();
            PlainNet net = nets.get(entry.getKey());
            boolean kept =
                    switch (old.lock()) {
                        case NONE -> true;
                        case WHOLE -> old.equals(net);
                        case WIRES ->
                                net != null
                                        && net.driver().equals(old.driver())
                                        && net.root().equals(old.root())
                                        && net.sinks().containsAll(old.sinks())
                                        && net.from().entrySet().containsAll(old.from().entrySet());
                    };
            if (!kept) {
                return false;
            }
        }
        return true;
    }

    private boolean comesToNothingUnusable(PlainState before) {
        for (Map.Entry<String, PlainNet> net : nets.entrySet()) {
            Set<String> now = net.getValue().on();
            now.removeAll(before.on(net.getKey()));
            now.retainAll(chip.unusableVertices);
            if (!now.isEmpty()) {
                return false;
            }
        }
        for (Map.Entry<String, PlainCell> cell : cells.entrySet()) {
            PlainCell old = before.cells.get(cell.getKey());
            String site = cell.getValue().site();
            boolean comes = old == null || !old.site().equals(site);
            if (comes && chip.unusableSites.contains(site)) {
                return false;
            }
        }
        return true;
    }

    /** Whether a net is locked whole: no branch of it may be added. */
    public boolean takesNoBranch(String net) {
        return nets.get(net).lock() == NetLock.WHOLE;
    }

    /** The vertices of a net; none when there is no such net. */
    public Set<String> on(String net) {
        return nets.containsKey(net) ? nets.get(net).on() : Set.of();
    }

    /** The fabric's vertices. */
    public Set<String> vertices() {
        return chip.edges.keySet();
    }

    /** A pin's site, or the vertex itself. */
    public String resourceOf(String vertex) {
        return chip.siteOf.getOrDefault(vertex, vertex);
    }

    /** The vertices of a net, and the pins of the sites that it goes through. */
    public Set<String> usedBy(String name) {
        Set<String> result = new HashSet<>(on(name));
        if (nets.containsKey(name)) {
            addPinsThrough(nets.get(name), result);
        }
        return result;
    }

    private void addPinsThrough(PlainNet net, Set<String> pins) {
        net.from()
                .forEach(
                        (to, from) -> {
                            if (chip.edges.get(from).get(to) == EdgeKind.PASS_THROUGH) {
                                pins.addAll(chip.pinsOf.get(chip.siteOf.get(to)));
                            }
                        });
    }

    /** All vertices that something uses. */
    public Set<String> used() {
        Set<String> result = new HashSet<>(chip.unusableVertices);
        Set<String> ends = new HashSet<>();
        for (PlainNet net : nets.values()) {
            result.addAll(net.on());
            ends(net).forEach(e -> ends.add(vertexOf(e)));
            addPinsThrough(net, result);
        }
        for (PlainCell cell : cells.values()) {
            boolean open = "open".equals(cell.settings().get("through"));
            for (String pin : chip.pinsOf.get(cell.site())) {
                if (!open || ends.contains(pin)) {
                    result.add(pin);
                }
            }
        }
        return result;
    }

    /** The switches of groups that a net has on, {@code from to}. */
    public Set<String> switchesOf(String net) {
        Set<String> result = new HashSet<>();
        if (nets.containsKey(net)) {
            nets.get(net)
                    .from()
                    .forEach(
                            (to, from) -> {
                                if (chip.groupOf.containsKey(from + " " + to)) {
                                    result.add(from + " " + to);
                                }
                            });
        }
        return result;
    }

    /** Whether some switches exclude each other. */
    public boolean hasSwitchGroups() {
        return !chip.groupOf.isEmpty();
    }

    /**
     * Whether a pad can be reached over what nothing uses, through no other pad, and nothing
     * switches its driver.
     */
    public boolean reaches(Set<String> starts, Set<String> used, String pad) {
        return reaches(starts, used, pad, Set.of());
    }

    /**
     * The same.
     *
     * @param alsoOn switches that are on in addition to those of the nets
     */
    public boolean reaches(Set<String> starts, Set<String> used, String pad, Set<String> alsoOn) {
        String enable = chip.enableOf.get(pad);
        if (cells.values().stream().anyMatch(c -> c.site().equals(enable))) {
            return false;
        }
        if (enable != null
                && nets.values().stream()
                        .flatMap(n -> n.on().stream())
                        .anyMatch(chip.pinsOf.get(enable)::contains)) {
            return false;
        }
        String goal = chip.vertexOfPad.get(pad);
        Set<String> pads = new HashSet<>(chip.vertexOfPad.values());
        if (enable != null) {
            // What comes to the enable would switch the driver.
            pads.addAll(chip.pinsOf.get(enable));
        }
        if (hasSwitchGroups()) {
            Map<String, String> on = new HashMap<>();
            nets.keySet().forEach(n -> switchesOf(n).forEach(e -> on.put(chip.groupOf.get(e), e)));
            alsoOn.forEach(e -> on.put(chip.groupOf.get(e), e));
            Set<String> shut = new HashSet<>(used);
            shut.addAll(pads);
            shut.addAll(starts);
            if (used.contains(goal)) {
                return false;
            }
            shut.remove(goal);
            return starts.stream().anyMatch(s -> comesTo(goal, s, shut, on));
        }
        Set<String> seen = new HashSet<>(starts);
        List<String> open = new ArrayList<>(starts);
        while (!open.isEmpty()) {
            for (String next : chip.edges.get(open.remove(open.size() - 1)).keySet()) {
                if (next.equals(goal) && !used.contains(goal)) {
                    return true;
                }
                if (!used.contains(next) && !pads.contains(next) && seen.add(next)) {
                    open.add(next);
                }
            }
        }
        return false;
    }

    /** Tries all ways on from a vertex, each with the switches that it has on. */
    private boolean comesTo(String goal, String at, Set<String> shut, Map<String, String> on) {
        for (String next : chip.edges.get(at).keySet()) {
            if (shut.contains(next)) {
                continue;
            }
            String edge = at + " " + next;
            String group = chip.groupOf.get(edge);
            if (group != null && !on.getOrDefault(group, edge).equals(edge)) {
                continue;
            }
            if (next.equals(goal)) {
                return true;
            }
            boolean turned = group != null && on.putIfAbsent(group, edge) == null;
            shut.add(next);
            boolean comes = comesTo(goal, next, shut, on);
            shut.remove(next);
            if (turned) {
                on.remove(group);
            }
            if (comes) {
                return true;
            }
        }
        return false;
    }

    private boolean apply(Edit edit, Fabric fabric, PlainState before) {
        if (edit instanceof Edit.DisconnectPort go) {
            if (!ports.containsKey(go.port())) {
                return false;
            }
            PlainPort port = ports.get(go.port());
            if (port.out()) {
                // First, as the port's own branch may lead on to there.
                dropEnable(go.port(), chip.enableOf.get(port.pad()), before);
            }
            drop(Set.of("port " + go.port()));
            ports.remove(go.port());
        } else if (edit instanceof Edit.RemoveNet gone) {
            return nets.remove(gone.net()) != null;
        } else if (edit instanceof Edit.RemoveCell gone) {
            if (!cells.containsKey(gone.cell())) {
                return false;
            }
            drop(pinsOf(gone.cell()));
            cells.remove(gone.cell());
        } else if (edit instanceof Edit.SetCell set) {
            PlainCell cell = cells.get(set.cell());
            if (cell == null) {
                return false;
            }
            Map<String, String> settings = new HashMap<>(cell.settings());
            settings.put(set.setting(), set.value());
            cells.put(set.cell(), new PlainCell(cell.kind(), cell.site(), settings, cell.locked()));
        } else if (edit instanceof Edit.RouteNet route) {
            return reroute(route, fabric);
        } else if (edit instanceof Edit.RelocateCell move) {
            PlainCell cell = cells.get(move.cell());
            if (cell == null || !chip.pinsOf.containsKey(move.site())) {
                return false;
            }
            Set<String> pins = pinsOf(move.cell());
            for (Map.Entry<String, PlainNet> net : nets.entrySet()) {
                boolean there = ends(net.getValue()).stream().anyMatch(pins::contains);
                boolean listed = move.nets().stream().anyMatch(n -> n.net().equals(net.getKey()));
                if (there && !listed) {
                    return false;
                }
            }
            cells.put(
                    move.cell(),
                    new PlainCell(cell.kind(), move.site(), cell.settings(), cell.locked()));
            return move.nets().stream().allMatch(n -> reroute(n, fabric));
        } else if (edit instanceof Edit.BreakOut out) {
            return breakOut(out, fabric);
        } else if (edit instanceof Edit.SetDriver set) {
            PlainPort port = ports.get(set.port());
            if (port == null || !set.setting().isEmpty()) {
                // These fabrics have no settings.
                return false;
            }
        } else if (edit instanceof Edit.TieEnable tie) {
            PlainPort port = ports.get(tie.port());
            if (port == null || !port.out() || !chip.enableOf.containsKey(port.pad())) {
                return false;
            }
            ports.put(
                    tie.port(), new PlainPort(true, port.both(), port.pad(), port.setting(), true));
        } else if (edit instanceof Edit.AddCell add) {
            return chip.pinsOf.containsKey(add.site())
                    && cells.putIfAbsent(
                                    add.cell(),
                                    new PlainCell(add.kind(), add.site(), add.settings(), false))
                            == null;
        } else if (edit instanceof Edit.AddNet add) {
            return addNet(add, fabric);
        } else if (edit instanceof Edit.AddInput add) {
            return addInput(add, fabric);
        } else if (edit instanceof Edit.AddSink add) {
            return addSink(add, fabric);
        }
        return true;
    }

    /** Wires that led only to an enable go with the last port whose driver it switched. */
    private void dropEnable(String port, String site, PlainState before) {
        boolean used =
                ports.entrySet().stream()
                        .filter(p -> !p.getKey().equals(port) && p.getValue().out())
                        .map(p -> chip.enableOf.get(p.getValue().pad()))
                        .anyMatch(other -> Objects.equals(other, site));
        boolean cell = before.cells.values().stream().anyMatch(c -> c.site().equals(site));
        if (site == null || used || cell) {
            return;
        }
        for (String name : List.copyOf(nets.keySet())) {
            PlainNet old = before.nets.get(name);
            Set<String> gone = old == null ? Set.of() : onlyTo(site, old, before);
            Map<String, String> from = new LinkedHashMap<>();
            PlainNet now = nets.get(name);
            for (Map.Entry<String, String> step : now.from().entrySet()) {
                boolean below = false;
                for (String at = step.getKey(); at != null; at = now.from().get(at)) {
                    below |= gone.contains(at);
                }
                if (!below) {
                    from.put(step.getKey(), step.getValue());
                }
            }
            if (from.size() < now.from().size()) {
                nets.put(
                        name,
                        new PlainNet(now.driver(), now.sinks(), now.root(), from, now.lock()));
            }
        }
    }

    /** The vertices of a net below which everything is on a site or behind it, and no sink. */
    private Set<String> onlyTo(String site, PlainNet net, PlainState before) {
        Set<String> sinks = new HashSet<>();
        net.sinks().forEach(s -> sinks.add(before.vertexOf(s)));
        Set<String> result = new HashSet<>();
        for (String vertex : net.from().keySet()) {
            boolean only = true;
            for (String leaf : net.from().keySet()) {
                boolean end = !net.from().containsValue(leaf) || sinks.contains(leaf);
                boolean below = false;
                boolean behind = false;
                for (String at = leaf; at != null; at = net.from().get(at)) {
                    below |= at.equals(vertex);
                    behind |= site.equals(chip.siteOf.get(at)) && !at.equals(net.root());
                }
                only &= !end || !below || behind && !sinks.contains(leaf);
            }
            if (only) {
                result.add(vertex);
            }
        }
        return result;
    }

    private boolean isFreeEnd(Edit.CellEnd end, boolean drives) {
        String name = end.cell() + "." + end.pin();
        if (!cells.containsKey(end.cell()) || !pinsOf(end.cell()).contains(name)) {
            return false;
        }
        return chip.outputs.contains(vertexOf(name)) == drives
                && nets.values().stream().noneMatch(n -> ends(n).contains(name));
    }

    private boolean addNet(Edit.AddNet add, Fabric fabric) {
        String driver = add.driver().cell() + "." + add.driver().pin();
        return isFreeEnd(add.driver(), true)
                && addNet(add.net(), driver, add.sinks(), add.route(), fabric);
    }

    private boolean addInput(Edit.AddInput add, Fabric fabric) {
        boolean taken = ports.values().stream().anyMatch(p -> p.pad().equals(add.pad()));
        if (taken || ports.containsKey(add.port()) || !chip.readable.contains(add.pad())) {
            return false;
        }
        ports.put(add.port(), new PlainPort(false, false, add.pad(), "", false));
        return addNet(add.net(), "port " + add.port(), add.sinks(), add.route(), fabric);
    }

    private boolean addNet(
            String net, String driver, List<Edit.CellEnd> to, RouteTree route, Fabric fabric) {
        List<String> sinks = new ArrayList<>();
        for (Edit.CellEnd sink : to) {
            String name = sink.cell() + "." + sink.pin();
            if (!isFreeEnd(sink, false) || sinks.contains(name)) {
                return false;
            }
            sinks.add(name);
        }
        if (nets.containsKey(net)) {
            return false;
        }
        nets.put(net, new PlainNet(driver, sinks, "", Map.of(), NetLock.NONE));
        return reroute(new Edit.RouteNet(net, route), fabric);
    }

    private boolean addSink(Edit.AddSink add, Fabric fabric) {
        PlainNet net = nets.get(add.net());
        if (net == null || !isFreeEnd(add.sink(), false) || add.route().isEmpty()) {
            return false;
        }
        String end = add.sink().cell() + "." + add.sink().pin();
        return grow(add.net(), end, add.route().stream().map(fabric::vertexName).toList());
    }

    /** A branch from a net's wires over others to a new end. */
    private boolean grow(String name, String end, List<String> route) {
        PlainNet net = nets.get(name);
        if (!net.on().contains(route.get(0))
                || !route.get(route.size() - 1).equals(vertexOf(end))) {
            return false;
        }
        Map<String, String> from = new LinkedHashMap<>(net.from());
        Set<String> on = net.on();
        for (int i = 1; i < route.size(); i++) {
            if (!on.add(route.get(i))) {
                return false;
            }
            from.put(route.get(i), route.get(i - 1));
        }
        List<String> sinks = new ArrayList<>(net.sinks());
        sinks.add(end);
        nets.put(name, new PlainNet(net.driver(), sinks, net.root(), from, net.lock()));
        return true;
    }

    private boolean reroute(Edit.RouteNet route, Fabric fabric) {
        PlainNet net = nets.get(route.net());
        if (net == null) {
            return false;
        }
        for (Edit.PinSwap swap : route.swaps()) {
            if (!swap(route.net(), swap)) {
                return false;
            }
        }
        net = nets.get(route.net());
        Map<String, String> from = new LinkedHashMap<>();
        RouteTree tree = route.route();
        for (int place = 1; place < tree.size(); place++) {
            from.put(
                    fabric.vertexName(tree.vertex(place)),
                    fabric.vertexName(tree.vertex(tree.parent(place))));
        }
        String root = fabric.vertexName(tree.root());
        nets.put(route.net(), new PlainNet(net.driver(), net.sinks(), root, from, net.lock()));
        return true;
    }

    /** These cells are registers, of which no pins are alike, or of kinds that state nothing. */
    private boolean swap(String name, Edit.PinSwap swap) {
        PlainNet net = nets.get(name);
        PlainCell cell = cells.get(swap.cell());
        if (cell == null || cell.locked()) {
            return false;
        }
        String old = swap.cell() + "." + swap.pin();
        String now = swap.cell() + "." + swap.with();
        String word = chip.alike.get(cell.site() + " " + swap.pin());
        boolean used = nets.values().stream().anyMatch(n -> ends(n).contains(now));
        boolean alike =
                word != null
                        && !swap.pin().equals(swap.with())
                        && word.equals(chip.alike.get(cell.site() + " " + swap.with()));
        if (!alike || used || !net.sinks().contains(old)) {
            return false;
        }
        List<String> sinks = new ArrayList<>(net.sinks());
        sinks.replaceAll(s -> s.equals(old) ? now : s);
        nets.put(name, new PlainNet(net.driver(), sinks, net.root(), net.from(), net.lock()));
        return true;
    }

    private boolean breakOut(Edit.BreakOut out, Fabric fabric) {
        PlainNet net = nets.get(out.net());
        boolean taken = ports.values().stream().anyMatch(p -> p.pad().equals(out.pad()));
        if (net == null
                || !chip.vertexOfPad.containsKey(out.pad())
                || !chip.drivable.contains(out.pad())
                || taken
                || ports.containsKey(out.port())
                || !out.setting().isEmpty()
                || out.route().isEmpty()) {
            return false;
        }
        ports.put(out.port(), new PlainPort(true, false, out.pad(), "", false));
        List<String> route = out.route().stream().map(fabric::vertexName).toList();
        return grow(out.net(), "port " + out.port(), route);
    }

    private Set<String> pinsOf(String cell) {
        Set<String> result = new HashSet<>();
        String site = cells.get(cell).site();
        for (String pin : chip.pinsOf.get(site)) {
            result.add(cell + pin.substring(pin.lastIndexOf('.')));
        }
        return result;
    }

    private static List<String> ends(PlainNet net) {
        List<String> result = new ArrayList<>(net.sinks());
        result.add(net.driver());
        return result;
    }

    private void drop(Set<String> gone) {
        for (String name : List.copyOf(nets.keySet())) {
            PlainNet net = nets.get(name);
            if (gone.contains(net.driver())) {
                nets.remove(name);
            } else if (net.sinks().stream().anyMatch(gone::contains)) {
                nets.put(name, without(net, gone));
            }
        }
    }

    /** Leaves that only served what is gone are taken away, one after the other. */
    private PlainNet without(PlainNet net, Set<String> gone) {
        Set<String> given = new HashSet<>();
        Set<String> kept = new HashSet<>();
        List<String> sinks = new ArrayList<>();
        for (String sink : net.sinks()) {
            (gone.contains(sink) ? given : kept).add(vertexOf(sink));
            if (!gone.contains(sink)) {
                sinks.add(sink);
            }
        }
        Map<String, String> from = new LinkedHashMap<>(net.from());
        Set<String> cut = new HashSet<>(given);
        boolean again = true;
        while (again) {
            again = false;
            for (String vertex : List.copyOf(from.keySet())) {
                boolean leaf = !from.containsValue(vertex);
                if (leaf && cut.contains(vertex) && !kept.contains(vertex)) {
                    // What is left of the branch may go as far as nothing else hangs on it.
                    cut.add(from.remove(vertex));
                    again = true;
                }
            }
        }
        return new PlainNet(net.driver(), sinks, net.root(), from, net.lock());
    }

    private String vertexOf(String end) {
        if (end.startsWith("port ")) {
            return chip.vertexOfPad.get(ports.get(end.substring(5)).pad());
        }
        int dot = end.lastIndexOf('.');
        // A part's pins have the name of the whole site before theirs.
        return chip.pinsOf.get(cells.get(end.substring(0, dot)).site()).stream()
                .filter(pin -> pin.substring(pin.lastIndexOf('.')).equals(end.substring(dot)))
                .findAny()
                .orElse("");
    }

    /** Whether the whole state keeps every rule. */
    public boolean isSound() {
        Map<String, String> netOn = new HashMap<>();
        Map<String, String> netThrough = new HashMap<>();
        Map<String, String> cellOn = new HashMap<>();
        Set<String> groupsOn = new HashSet<>();
        for (String net : nets.keySet()) {
            for (String edge : switchesOf(net)) {
                if (!groupsOn.add(chip.groupOf.get(edge))) {
                    return false;
                }
            }
        }
        for (Map.Entry<String, PlainCell> cell : cells.entrySet()) {
            if (cellOn.put(cell.getValue().site(), cell.getKey()) != null
                    || !chip.accepts.get(cell.getValue().site()).contains(cell.getValue().kind())) {
                return false;
            }
        }
        for (Map.Entry<String, PlainNet> entry : nets.entrySet()) {
            PlainNet net = entry.getValue();
            if (!net.root().equals(vertexOf(net.driver()))
                    || !ends(net).stream().allMatch(e -> chip.edges.containsKey(vertexOf(e)))) {
                return false;
            }
            for (String vertex : net.on()) {
                String other = netOn.put(vertex, entry.getKey());
                if (other != null && !shareThePad(vertex, net, nets.get(other))) {
                    return false;
                }
            }
            for (Map.Entry<String, String> step : net.from().entrySet()) {
                EdgeKind kind = chip.edges.get(step.getValue()).get(step.getKey());
                if (kind == null || !net.on().contains(step.getValue())) {
                    return false;
                }
                if (kind == EdgeKind.PASS_THROUGH) {
                    String other = netThrough.put(chip.siteOf.get(step.getKey()), entry.getKey());
                    if (other != null && !other.equals(entry.getKey())) {
                        return false;
                    }
                }
            }
        }
        for (PlainPort port : ports.values()) {
            String site = chip.enableOf.get(port.pad());
            boolean used =
                    port.tied()
                            && site != null
                            && (cellOn.containsKey(site)
                                    || chip.pinsOf.get(site).stream().anyMatch(netOn::containsKey));
            if (used) {
                return false;
            }
        }
        return pinsAreUsedOnce(netOn, netThrough, cellOn);
    }

    /** One net starts at the pad of a port in both directions, the other one comes there. */
    private boolean shareThePad(String vertex, PlainNet one, PlainNet other) {
        PlainNet starting = one.root().equals(vertex) ? one : other;
        PlainNet coming = starting == one ? other : one;
        return starting.root().equals(vertex)
                && !coming.root().equals(vertex)
                && starting.driver().startsWith("port ")
                && ports.get(starting.driver().substring(5)).both();
    }

    private boolean pinsAreUsedOnce(
            Map<String, String> netOn, Map<String, String> netThrough, Map<String, String> cellOn) {
        for (Map.Entry<String, List<String>> site : chip.pinsOf.entrySet()) {
            String cell = cellOn.get(site.getKey());
            String through = netThrough.get(site.getKey());
            boolean open = cell != null && "open".equals(cells.get(cell).settings().get("through"));
            if (through != null && cell != null && !open) {
                return false;
            }
            for (String pin : site.getValue()) {
                String net = netOn.get(pin);
                String end = cell == null ? "" : cell + pin.substring(pin.lastIndexOf('.'));
                boolean ends =
                        cell != null && nets.values().stream().anyMatch(n -> ends(n).contains(end));
                boolean endsHere = net != null && ends(nets.get(net)).contains(end);
                if (net != null && cell != null && !endsHere && (!open || ends)) {
                    return false;
                }
            }
        }
        return true;
    }

    /**
     * A net that goes through a site has its pins, but for those where a cell's nets end: another
     * one may stay at a pin where it was, and not come to one.
     */
    private boolean comesToNoUsedPin(PlainState before) {
        Map<String, String> netThrough = new HashMap<>();
        Set<String> ends = new HashSet<>();
        nets.forEach(
                (name, net) -> {
                    ends(net).forEach(e -> ends.add(vertexOf(e)));
                    net.from()
                            .forEach(
                                    (to, from) -> {
                                        if (chip.edges.get(from).get(to) == EdgeKind.PASS_THROUGH) {
                                            netThrough.put(chip.siteOf.get(to), name);
                                        }
                                    });
                });
        for (Map.Entry<String, PlainNet> net : nets.entrySet()) {
            for (String vertex : net.getValue().on()) {
                String site = chip.siteOf.get(vertex);
                String through = site == null ? null : netThrough.get(site);
                boolean comes = !before.on(net.getKey()).contains(vertex);
                boolean shared = through != null && !through.equals(net.getKey());
                if (comes && shared && !ends.contains(vertex)) {
                    return false;
                }
            }
        }
        return true;
    }

    /** Ends that are new to a net, and those that it reached before, it must reach. */
    private boolean reachesWhatItReached(PlainState before) {
        for (Map.Entry<String, PlainNet> entry : nets.entrySet()) {
            PlainNet old = before.nets.get(entry.getKey());
            for (String sink : entry.getValue().sinks()) {
                boolean had = old != null && old.sinks().contains(sink);
                boolean needed = !had || old.on().contains(before.vertexOf(sink));
                if (needed && !entry.getValue().on().contains(vertexOf(sink))) {
                    return false;
                }
            }
        }
        return true;
    }

    /** What uses a vertex, as {@code cell NAME} or {@code net NAME}; empty for nothing. */
    String userOf(String vertex) {
        String site = chip.siteOf.get(vertex);
        if (site != null) {
            for (Map.Entry<String, PlainCell> cell : cells.entrySet()) {
                if (cell.getValue().site().equals(site)) {
                    String end = cell.getKey() + vertex.substring(vertex.lastIndexOf('.'));
                    boolean ends = nets.values().stream().anyMatch(n -> ends(n).contains(end));
                    boolean open = "open".equals(cell.getValue().settings().get("through"));
                    if (!open || ends) {
                        return "cell " + cell.getKey();
                    }
                }
            }
        }
        String starting = "";
        for (Map.Entry<String, PlainNet> net : nets.entrySet()) {
            if (net.getValue().root().equals(vertex)) {
                starting = "net " + net.getKey();
            } else if (net.getValue().on().contains(vertex)) {
                return "net " + net.getKey();
            }
        }
        if (!starting.isEmpty()) {
            return starting;
        }
        for (Map.Entry<String, PlainNet> net : nets.entrySet()) {
            for (Map.Entry<String, String> step : net.getValue().from().entrySet()) {
                boolean through =
                        chip.edges.get(step.getValue()).get(step.getKey()) == EdgeKind.PASS_THROUGH;
                if (site != null && through && site.equals(chip.siteOf.get(step.getKey()))) {
                    return "net " + net.getKey();
                }
            }
        }
        return "";
    }

    /** Everything in it, in words, for comparing. */
    public String text() {
        StringBuilder result = new StringBuilder();
        cells.forEach(
                (name, c) ->
                        result.append(name + c.kind() + c.site() + new TreeMap<>(c.settings()))
                                .append('\n'));
        ports.forEach((name, p) -> result.append(name + p).append('\n'));
        nets.forEach(
                (name, n) ->
                        result.append(name + n.driver() + n.sinks() + n.root())
                                .append(new TreeMap<>(n.from()))
                                .append('\n'));
        return result.toString();
    }
}
