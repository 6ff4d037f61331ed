package padward.change;

import it.unimi.dsi.fastutil.ints.Int2ObjectLinkedOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.function.Predicate;
import padward.design.Cell;
import padward.design.Design;
import padward.design.DesignChange;
import padward.design.EnableBranch;
import padward.design.Net;
import padward.design.Numbered;
import padward.design.PadNames;
import padward.design.Port;
import padward.design.PortDirection;
import padward.design.RouteTree;
import padward.design.RouteTreeBranches;
import padward.design.Terminal;
import padward.fabric.AlikePins;
import padward.fabric.Fabric;
import padward.fabric.PinDirection;
import padward.fabric.SiteView;

/**
 * A design while edits are applied to it: the one place where they write what they remove, put and
 * need. Names are looked up as the edits before have left them; whether wires and sites are free is
 * looked at once, at the end, when everything that moves has left its place. Belongs to one thread
 * and one entry.
 */
public final class Draft {
    private final Design base;
    private final Records<Cell> cells;
    private final Records<Net> nets;
    private final Records<Port> ports;
    private final DraftEnds ends;
    private final Set<Part> touched = new TreeSet<>();
    private final List<String> reasons = new ArrayList<>();

    Draft(Design base) {
        this.base = base;
        this.cells = new Records<>(base.cells(), base::findCell, Cell::name);
        this.nets = new Records<>(base.nets(), base::findNet, Net::name);
        this.ports = new Records<>(base.ports(), base::findPort, Port::name);
        this.ends = new DraftEnds(base);
    }

    /** What edits put and removed of one sort. */
    private static final class Records<T> {
        private final Numbered<T> before;
        private final Function<String, Optional<T>> byName;
        private final Function<T, String> nameOf;
        private final Int2ObjectLinkedOpenHashMap<T> put = new Int2ObjectLinkedOpenHashMap<>();
        private final Int2ObjectLinkedOpenHashMap<T> removed = new Int2ObjectLinkedOpenHashMap<>();
        private final Map<String, Integer> added = new LinkedHashMap<>();
        private int limit;

        Records(
                Numbered<T> before,
                Function<String, Optional<T>> byName,
                Function<T, String> nameOf) {
            this.before = before;
            this.byName = byName;
            this.nameOf = nameOf;
            this.limit = before.limit();
        }

        Optional<T> find(int number) {
            T now = put.get(number);
            if (now != null) {
                return Optional.of(now);
            }
            return removed.containsKey(number) ? Optional.empty() : before.find(number);
        }

        Optional<T> find(String name) {
            Integer number = added.get(name);
            if (number != null) {
                return find(number);
            }
            return byName.apply(name).flatMap(t -> find(numberOf(t)));
        }

        private int numberOf(T thing) {
            if (thing instanceof Cell cell) {
                return cell.id();
            }
            return thing instanceof Net net ? net.id() : ((Port) thing).id();
        }

        void put(T thing) {
            int number = numberOf(thing);
            put.put(number, thing);
            if (number >= before.limit()) {
                added.put(nameOf.apply(thing), number);
                limit = Math.max(limit, number + 1);
            }
        }

        void remove(T thing) {
            int number = numberOf(thing);
            put.remove(number);
            before.find(number).ifPresent(old -> removed.put(number, old));
            added.remove(nameOf.apply(thing));
        }

        boolean isChanged(int number) {
            return put.containsKey(number) || removed.containsKey(number);
        }
    }

    /** The design before the edits. */
    public Design before() {
        return base;
    }

    /** The fabric. */
    public Fabric fabric() {
        return base.fabric();
    }

    /** Says that the edits cannot be applied, and why, as a clause. */
    public void refuse(String reason) {
        reasons.add(reason);
    }

    /** The port of that name that an earlier edit of the entry adds, unless that was refused. */
    public Optional<Port> added(String name) {
        return reasons.isEmpty() ? port(name) : ports.find(name);
    }

    /** The net of that name; refuses when there is none. */
    public Optional<Net> net(String name) {
        return known(nets.find(name), "net", name);
    }

    /** The cell of that name; refuses when there is none. */
    public Optional<Cell> cell(String name) {
        return known(cells.find(name), "cell", name);
    }

    /** The port of that name; refuses when there is none. */
    public Optional<Port> port(String name) {
        return known(ports.find(name), "port", name);
    }

    private <T> Optional<T> known(Optional<T> found, String kind, String name) {
        if (found.isEmpty()) {
            refuse("there is no " + kind + " " + name);
        }
        return found;
    }

    /** The number of the site of that name; refuses when there is none. */
    public Optional<Integer> site(String name) {
        int site = fabric().findSite(name);
        return known(site == Fabric.NOTHING ? Optional.empty() : Optional.of(site), "site", name);
    }

    /** The index of the pad of that name; refuses when there is none. O(pads). */
    public Optional<Integer> pad(String name) {
        return known(PadNames.findExact(fabric(), name).stream().boxed().findAny(), "pad", name);
    }

    /** Whether a new port may have that name and pad; refuses when it may not. */
    public boolean isForNewPort(String name, int pad) {
        Optional<Port> there = findPortOn(pad);
        String padName = fabric().pads().get(pad).name();
        there.ifPresent(p -> refuse("port " + p.name() + " is already on pad " + padName));
        boolean named = ports.find(name).isPresent();
        if (named) {
            refuse("port " + name + " already exists");
        }
        return there.isEmpty() && !named;
    }

    /** Whether a cell has that name. */
    public boolean isCell(String name) {
        return cells.find(name).isPresent();
    }

    /** Whether a net has that name. */
    public boolean isNet(String name) {
        return nets.find(name).isPresent();
    }

    /** A cell's pin at which no net ends; refuses when there is none, or one ends there. */
    public Optional<Terminal> freeEnd(Edit.CellEnd end, PinDirection direction) {
        Optional<Cell> found = cell(end.cell());
        if (found.isEmpty()) {
            return Optional.empty();
        }
        SiteView site = fabric().site(found.get().site());
        int pin = site.findPin(end.pin());
        if (pin == Fabric.NOTHING) {
            refuse(site.described() + " has no pin " + end.pin());
            return Optional.empty();
        }
        if (site.pins().get(pin - site.firstPin()).direction() != direction) {
            refuse(
                    "pin "
                            + end
                            + " is "
                            + (direction == PinDirection.IN ? "an output" : "an input"));
            return Optional.empty();
        }
        Terminal result = new Terminal.CellPin(found.get().id(), end.pin());
        Optional<Net> other =
                netsAt(found.get()).stream()
                        .filter(n -> pinsAt(n, found.get()).contains(end.pin()))
                        .findFirst();
        other.ifPresent(n -> refuse("net " + n.name() + " already ends at " + end));
        return other.isPresent() ? Optional.empty() : Optional.of(result);
    }

    /**
     * Moves a net's end at a cell to a pin that is alike, with what the cell's lookup table
     * contains; refuses when that cannot be.
     */
    public void swap(Net net, Edit.PinSwap swap) {
        Optional<Terminal> to =
                freeEnd(new Edit.CellEnd(swap.cell(), swap.with()), PinDirection.IN);
        Optional<Cell> found = cells.find(swap.cell());
        if (to.isEmpty() || found.isEmpty()) {
            return;
        }
        Cell cell = found.get();
        Terminal from = new Terminal.CellPin(cell.id(), swap.pin());
        if (!net.sinks().contains(from)) {
            refuse("net " + net.name() + " does not end at " + swap.cell() + "." + swap.pin());
            return;
        }
        SiteView site = fabric().site(cell.site());
        if (!AlikePins.canSwap(fabric(), site, cell.kind(), swap.pin(), swap.with())) {
            refuse(
                    "the signals of pins "
                            + swap.pin()
                            + " and "
                            + swap.with()
                            + " of cell "
                            + swap.cell()
                            + " cannot be swapped");
            return;
        }
        if (cell.isTied(swap.with())) {
            refuse("pin " + swap.with() + " of cell " + swap.cell() + " is constant");
            return;
        }
        if (cell.locked()) {
            refuse(lockOf(cell));
        }
        Cell after = cell.withSwapped(fabric(), swap.pin(), swap.with());
        if (!after.equals(cell)) {
            put(after);
        }
        put(net.withSink(from, to.get()));
    }

    /** Pins at which no net ends, each once; refuses when one is not. */
    public Optional<List<Terminal>> freeSinks(String net, List<Edit.CellEnd> sinks) {
        List<Terminal> result = new ArrayList<>();
        for (Edit.CellEnd sink : sinks) {
            Optional<Terminal> end = freeEnd(sink, PinDirection.IN);
            if (end.filter(result::contains).isPresent()) {
                refuse("net " + net + " would end twice at " + sink);
            }
            end.filter(e -> !result.contains(e)).ifPresent(result::add);
        }
        return result.size() == sinks.size() ? Optional.of(result) : Optional.empty();
    }

    /** A net's tree with one more branch; refuses what does not leave the tree, or comes back. */
    public Optional<RouteTree> extended(Net net, List<Integer> branch) {
        RouteTree.Builder tree = RouteTree.Builder.from(net.route());
        if (!tree.contains(branch.get(0))) {
            refuse("the route does not start on net " + net.name());
            return Optional.empty();
        }
        for (int i = 1; i < branch.size(); i++) {
            if (tree.contains(branch.get(i))) {
                refuse(
                        "net "
                                + net.name()
                                + " is already on "
                                + fabric().vertexName(branch.get(i)));
                return Optional.empty();
            }
            tree.add(branch.get(i - 1), branch.get(i));
        }
        return Optional.of(tree.build());
    }

    /** The port on a pad, if there is one. */
    public Optional<Port> findPortOn(int pad) {
        Optional<Port> here = ports.put.values().stream().filter(p -> p.pad() == pad).findFirst();
        return here.isPresent() ? here : base.findPortOn(pad).filter(p -> !ports.isChanged(p.id()));
    }

    /** Puts a net in the place of the one with its number. */
    public void put(Net net) {
        nets.put(net);
        touched.add(new Part(Part.Kind.NET, net.name()));
    }

    static String lockOf(Cell cell) {
        return "cell " + cell.name() + " is locked";
    }

    /** Puts a cell in the place of the one with its number. */
    public void put(Cell cell) {
        cells.put(cell);
        touched.add(new Part(Part.Kind.CELL, cell.name()));
    }

    /** Adds a port. */
    public Port addPort(String name, PortDirection direction, int pad, String setting) {
        Port port = new Port(ports.limit, name, direction, pad, setting);
        ports.put(port);
        touched.add(new Part(Part.Kind.PORT, name));
        return port;
    }

    /** Adds a cell. */
    public void addCell(String name, String kind, int site, Map<String, String> settings) {
        put(new Cell(cells.limit, name, kind, site, settings));
    }

    /** Adds a net. */
    public void addNet(
            String name, Terminal driver, List<Terminal> sinks, RouteTree route, boolean clock) {
        put(new Net(nets.limit, name, driver, sinks, route, clock));
    }

    /** Puts a port in the place of the one with its number. */
    public void put(Port port) {
        ports.put(port);
        touched.add(new Part(Part.Kind.PORT, port.name()));
    }

    /** Removes a net; its ends stay without a signal. */
    public void remove(Net net) {
        if (net.lock().keepsWires()) {
            refuse("net " + net.name() + " is locked");
        }
        nets.remove(net);
        touched.add(new Part(Part.Kind.NET, net.name()));
    }

    /** Removes a cell, and takes its pins from the nets there; those that it drives go. */
    public void remove(Cell cell) {
        if (cell.locked()) {
            refuse(lockOf(cell));
        }
        Predicate<Terminal> ofCell =
                t -> t instanceof Terminal.CellPin at && at.cell() == cell.id();
        netsAt(cell).forEach(net -> dropEnds(net, ofCell));
        cells.remove(cell);
        touched.add(new Part(Part.Kind.CELL, cell.name()));
    }

    /** Removes a port, and takes it from its net; a net that it drives goes. */
    public void remove(Port port) {
        handOnEnable(port);
        // Before the port's own branch, which may lead on to the enable from its pad.
        dropEnable(port);
        Predicate<Terminal> thePort = t -> t instanceof Terminal.PortEnd at && at.isOf(port);
        nets(base.netsAtPort(port.id()), thePort).forEach(net -> dropEnds(net, thePort));
        ports.remove(port);
        touched.add(new Part(Part.Kind.PORT, port.name()));
    }

    /** A net that ends at an enable which other ports share ends at that of one of these. */
    private void handOnEnable(Port port) {
        Terminal enable = Terminal.PortEnd.enableOf(port.id());
        for (Net net : nets(base.netsAtPort(port.id()), enable::equals)) {
            EnableBranch.otherUser(fabric(), port, this::findPortOn)
                    .ifPresent(
                            other -> {
                                List<Terminal> sinks = new ArrayList<>(net.sinks());
                                sinks.set(
                                        sinks.indexOf(enable),
                                        Terminal.PortEnd.enableOf(other.id()));
                                put(net.withSinks(sinks));
                            });
        }
    }

    /** Takes the wires from nets that only switched the driver of a port's pad. */
    private void dropEnable(Port port) {
        for (EnableBranch branch : EnableBranch.of(base, port, this::findPortOn)) {
            nets.find(branch.net().id()).ifPresent(now -> put(branch.takenFrom(now)));
        }
    }

    /** The nets at a cell as they are now. */
    public List<Net> netsAt(Cell cell) {
        List<Net> result = new ArrayList<>();
        IntSet seen = new IntOpenHashSet();
        for (Net net : base.netsAt(cell.id())) {
            seen.add(net.id());
            nets.find(net.id()).ifPresent(result::add);
        }
        nets.put.values().stream().filter(n -> !seen.contains(n.id())).forEach(result::add);
        result.removeIf(n -> !ends.isAt(n, cell.id()));
        return result;
    }

    /** The pins of a cell at which a net ends now, each once. */
    List<String> pinsAt(Net net, Cell cell) {
        return ends.pinsAt(net, cell.id());
    }

    private List<Net> nets(List<Net> before, Predicate<Terminal> end) {
        List<Net> result = new ArrayList<>();
        IntSet seen = new IntOpenHashSet();
        for (Net net : before) {
            seen.add(net.id());
            nets.find(net.id()).ifPresent(result::add);
        }
        nets.put.values().stream().filter(n -> !seen.contains(n.id())).forEach(result::add);
        result.removeIf(n -> n.ends().stream().noneMatch(end));
        return result;
    }

    /** Takes ends from a net, with the wires that served them alone; without its driver it goes. */
    private void dropEnds(Net net, Predicate<Terminal> gone) {
        if (gone.test(net.driver())) {
            remove(net);
            return;
        }
        IntSet given = new IntOpenHashSet();
        IntSet kept = new IntOpenHashSet();
        List<Terminal> sinks = new ArrayList<>();
        for (Terminal sink : net.sinks()) {
            if (gone.test(sink)) {
                given.add(vertexOf(sink));
            } else {
                kept.add(vertexOf(sink));
                sinks.add(sink);
            }
        }
        boolean[] places = RouteTreeBranches.servingOnly(net.route(), given, kept);
        put(net.withSinks(sinks).withRoute(RouteTreeBranches.without(net.route(), places)));
    }

    /** The vertex at which an end meets the fabric now. */
    public int vertexOf(Terminal end) {
        if (end instanceof Terminal.CellPin at) {
            int site = cells.find(at.cell()).orElseThrow().site();
            return fabric().site(site).findPin(at.pin());
        }
        Terminal.PortEnd at = (Terminal.PortEnd) end;
        return at.vertexOn(fabric(), ports.find(at.port()).orElseThrow());
    }

    /** An end as people write it. */
    String textOf(Terminal end) {
        if (end instanceof Terminal.CellPin at) {
            return cells.find(at.cell()).orElseThrow().name() + "." + at.pin();
        }
        Terminal.PortEnd at = (Terminal.PortEnd) end;
        return at.toText(ports.find(at.port()).orElseThrow());
    }

    Optional<Cell> cellNow(int number) {
        return cells.find(number);
    }

    Optional<Port> portNow(int number) {
        return ports.find(number);
    }

    Optional<Net> netNow(int number) {
        return nets.find(number);
    }

    boolean isChangedNet(int number) {
        return nets.isChanged(number);
    }

    boolean isChangedCell(int number) {
        return cells.isChanged(number);
    }

    Iterable<Net> netsPut() {
        return nets.put.values();
    }

    Iterable<Port> portsPut() {
        return ports.put.values();
    }

    Iterable<Cell> cellsPut() {
        return cells.put.values();
    }

    /** Looks at what the edits need, and makes the design if all of it is there. */
    Outcome finish() {
        DraftCheck check = new DraftCheck(this);
        check.lookAtLocks();
        if (reasons.isEmpty()) {
            check.run();
        }
        if (!reasons.isEmpty()) {
            return new Outcome.Refused(reasons.stream().distinct().toList());
        }
        DesignChange change =
                new DesignChange(
                        List.copyOf(cells.put.values()),
                        List.copyOf(cells.removed.values()),
                        List.copyOf(nets.put.values()),
                        List.copyOf(nets.removed.values()),
                        List.copyOf(ports.put.values()),
                        List.copyOf(ports.removed.values()));
        return new Outcome.Applied(base.with(change), touched);
    }
}
