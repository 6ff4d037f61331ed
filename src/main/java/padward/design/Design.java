package padward.design;

import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.function.ToIntFunction;
import java.util.stream.Collectors;
import padward.base.Lazy;
import padward.design.board.Board;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.SiteView;
import padward.fabric.pad.Bank;
import padward.fabric.pad.DriverSetting;

/**
 * A finished design: what it occupies of a fabric, and the board around. Immutable. An edit makes a
 * new design of it, which shares all that did not change: {@link #with} costs what the edit
 * touches, not what the design holds. Numbers of cells, nets and ports stay through edits.
 */
public final class Design {
    private final Shared shared;
    private final Numbered<Cell> cells;
    private final Numbered<Net> nets;
    private final Numbered<Port> ports;
    private final Lazy<NetsByEnd> netsByEnd;
    private final Lazy<Occupancy> occupancy;

    /** Numbers of added cells, nets and ports by name. */
    private final Map<String, Integer> addedCells;

    private final Map<String, Integer> addedNets;
    private final Map<String, Integer> addedPorts;

    /** Ports by pad where edits have put them; a port may have left since. */
    private final Map<Integer, Integer> portByPad;

    /** Outputs set for another voltage than their bank's, by bank; made when first asked for. */
    private Map<String, List<Port>> outputsAtOddVoltage;

    /** Pins that ties of enables take; made when first asked for. */
    private IntSet tiedPins;

    /** Ports whose pads' drivers a net switches, by its number; made when first asked for. */
    private Map<Integer, List<Port>> switchedByNet;

    private final Lazy<Locks> locks;

    /** What a design that was read and all that edits make of it have in common. */
    private record Shared(
            String name,
            String note,
            Fabric fabric,
            Board board,
            Lazy<Map<String, Integer>> cellByName,
            Lazy<Map<String, Integer>> netByName,
            Lazy<Map<String, Integer>> portByName,
            Map<Integer, Integer> portByPad,
            Map<String, String> otherNames,
            boolean anyLocked) {
        Shared with(Map<String, String> others) {
            return new Shared(
                    name,
                    note,
                    fabric,
                    board,
                    cellByName,
                    netByName,
                    portByName,
                    portByPad,
                    others,
                    anyLocked);
        }
    }

    /**
     * Takes checked parts: names unique, numbers equal to list positions, wires used once. The file
     * reader checks them and reports faults; a breach here is a programmer's mistake. O(size).
     *
     * @throws IllegalArgumentException when two nets share a vertex or two cells a site
     */
    public Design(
            String name,
            String note,
            Fabric fabric,
            Board board,
            List<Cell> cells,
            List<Net> nets,
            List<Port> ports) {
        this(new Parts(name, note, fabric, board, cells, nets, ports));
        occupancy.get();
    }

    /**
     * As the constructor, of parts of which a reader knows that no two nets share a vertex and no
     * two cells a site. What can be worked out of them is worked out when it is first asked for, by
     * whoever asks; {@link #prepare} does it at once. O(size), but little of it.
     */
    public static Design ofChecked(
            String name,
            String note,
            Fabric fabric,
            Board board,
            List<Cell> cells,
            List<Net> nets,
            List<Port> ports) {
        return new Design(new Parts(name, note, fabric, board, cells, nets, ports));
    }

    private record Parts(
            String name,
            String note,
            Fabric fabric,
            Board board,
            List<Cell> cells,
            List<Net> nets,
            List<Port> ports) {}

    private Design(Parts parts) {
        List<Port> ports = parts.ports();
        this.cells = Numbered.of(parts.cells());
        this.nets = Numbered.of(parts.nets());
        this.ports = Numbered.of(ports);
        Map<Integer, Integer> portByPad = new HashMap<>();
        ports.forEach(p -> portByPad.putIfAbsent(p.pad(), p.id()));
        this.shared =
                new Shared(
                        parts.name(),
                        parts.note(),
                        parts.fabric(),
                        parts.board(),
                        byName(cells, Cell::name, Cell::id),
                        byName(nets, Net::name, Net::id),
                        byName(this.ports, Port::name, Port::id),
                        portByPad,
                        Map.of(),
                        parts.cells().stream().anyMatch(Cell::locked)
                                || parts.nets().stream().anyMatch(n -> n.lock().keepsWires()));
        this.netsByEnd = new Lazy<>(() -> NetsByEnd.of(this.nets));
        this.occupancy =
                new Lazy<>(() -> new Occupancy(shared.fabric, this.cells, this.nets, netsByEnd));
        this.locks = new Lazy<>(() -> Locks.of(this, shared.anyLocked));
        this.addedCells = Map.of();
        this.addedNets = Map.of();
        this.addedPorts = Map.of();
        this.portByPad = Map.of();
    }

    private Design(Design before, DesignChange change) {
        this.shared = before.shared;
        this.cells = before.cells.with(change.cells(), change.cellsRemoved(), Cell::id);
        this.nets = before.nets.with(change.nets(), change.netsRemoved(), Net::id);
        this.ports = before.ports.with(change.ports(), change.portsRemoved(), Port::id);
        NetsByEnd atCells = before.netsByEnd.get().with(before.nets, change);
        this.netsByEnd = new Lazy<>(() -> atCells);
        Occupancy now = before.occupancy.get().with(cells, nets, netsByEnd, change);
        this.occupancy = new Lazy<>(() -> now);
        this.locks = new Lazy<>(() -> Locks.of(this, shared.anyLocked));
        this.addedCells =
                added(before.addedCells, before.cells, change.cells(), Cell::name, Cell::id);
        this.addedNets = added(before.addedNets, before.nets, change.nets(), Net::name, Net::id);
        this.addedPorts =
                added(before.addedPorts, before.ports, change.ports(), Port::name, Port::id);
        this.portByPad = new HashMap<>(before.portByPad);
        change.ports().forEach(p -> portByPad.put(p.pad(), p.id()));
    }

    private Design(Design same, Map<String, String> otherNames) {
        this.shared = same.shared.with(otherNames);
        this.cells = same.cells;
        this.nets = same.nets;
        this.ports = same.ports;
        this.netsByEnd = same.netsByEnd;
        this.occupancy = same.occupancy;
        this.locks = same.locks;
        this.addedCells = same.addedCells;
        this.addedNets = same.addedNets;
        this.addedPorts = same.addedPorts;
        this.portByPad = same.portByPad;
    }

    private static <T> Lazy<Map<String, Integer>> byName(
            Numbered<T> things, Function<T, String> name, ToIntFunction<T> number) {
        return new Lazy<>(
                () -> {
                    Map<String, Integer> result = new HashMap<>(things.size() + things.size() / 2);
                    things.forEach(t -> result.put(name.apply(t), number.applyAsInt(t)));
                    return result;
                });
    }

    private static <T> Map<String, Integer> added(
            Map<String, Integer> known,
            Numbered<T> before,
            List<T> put,
            Function<T, String> name,
            ToIntFunction<T> number) {
        Map<String, Integer> result = known;
        for (T thing : put) {
            int at = number.applyAsInt(thing);
            if (at >= before.limit()) {
                if (result == known) {
                    result = new HashMap<>(known);
                }
                result.put(name.apply(thing), at);
            }
        }
        return result;
    }

    /**
     * The design after a change. O(what changes + the differences from the design that was read).
     *
     * @throws IllegalArgumentException when two nets would share a vertex, or two cells a site
     */
    public Design with(DesignChange change) {
        return new Design(this, change);
    }

    /**
     * The same design, whose nets can also be looked up by names that they have elsewhere.
     *
     * @param names names in the design, or {@code cell.pin}, by the other names
     */
    public Design withOtherNames(Map<String, String> names) {
        return new Design(this, Map.copyOf(names));
    }

    /** What another name of a net stands for. */
    public Optional<String> findOtherName(String name) {
        return Optional.ofNullable(shared.otherNames.get(name));
    }

    /** The other names of nets. */
    public Set<String> otherNames() {
        return shared.otherNames.keySet();
    }

    private static <T, K> Optional<T> find(
            Numbered<T> things, Map<K, Integer> added, Map<K, Integer> read, K key) {
        Integer number = added.get(key);
        if (number != null) {
            Optional<T> thing = things.find(number);
            if (thing.isPresent()) {
                return thing;
            }
        }
        number = read.get(key);
        return number == null ? Optional.empty() : things.find(number);
    }

    /**
     * Works out now what uses what and who has which name, so that whoever asks first need not wait
     * for it. O(size).
     */
    public void prepare() {
        occupancy.get();
        shared.cellByName.get();
        shared.netByName.get();
        shared.portByName.get();
    }

    /** Name of the design. */
    public String name() {
        return shared.name;
    }

    /** Free text from the file. */
    public String note() {
        return shared.note;
    }

    /** The fabric it stands on. */
    public Fabric fabric() {
        return shared.fabric;
    }

    /** The board around the chip, {@link Board#UNKNOWN} when none is given. */
    public Board board() {
        return shared.board;
    }

    /** The cells in the order of their numbers. */
    public Numbered<Cell> cells() {
        return cells;
    }

    /** The nets in the order of their numbers. */
    public Numbered<Net> nets() {
        return nets;
    }

    /** The ports in the order of their numbers. */
    public Numbered<Port> ports() {
        return ports;
    }

    /** What uses what. */
    public Occupancy occupancy() {
        return occupancy.get();
    }

    /** What must stay as it is. */
    public Locks locks() {
        return locks.get();
    }

    /** The net of that full name. O(1). */
    public Optional<Net> findNet(String netName) {
        return find(nets, addedNets, shared.netByName.get(), netName);
    }

    /** The cell of that full name. O(1). */
    public Optional<Cell> findCell(String cellName) {
        return find(cells, addedCells, shared.cellByName.get(), cellName);
    }

    /** The port of that full name. O(1). */
    public Optional<Port> findPort(String portName) {
        return find(ports, addedPorts, shared.portByName.get(), portName);
    }

    /** The port on a pad, by the pad's index in {@code fabric.pads()}. O(1). */
    public Optional<Port> findPortOn(int pad) {
        return find(ports, portByPad, shared.portByPad, pad).filter(p -> p.pad() == pad);
    }

    /** The nets that a cell drives or that feed it, each once. O(nets of the cell). */
    public List<Net> netsAt(int cell) {
        List<Net> result = new ArrayList<>();
        netsByEnd.get().atCell(cell).forEach(n -> result.add(nets.get(n)));
        return result;
    }

    /** The nets that a port drives or that feed it, each once. O(nets of the port). */
    public List<Net> netsAtPort(int port) {
        List<Net> result = new ArrayList<>();
        netsByEnd.get().atPort(port).forEach(n -> result.add(nets.get(n)));
        return result;
    }

    /** The nets that a cell drives, each once. O(nets of the cell). */
    public List<Net> netsDrivenBy(int cell) {
        return netsAt(cell).stream().filter(n -> n.driverCell() == cell).toList();
    }

    /**
     * The ports of a bank whose drivers are set for another voltage than the bank's, in their
     * order. Ports that are only read do not count: their driver is off (common practice). O(ports)
     * the first time.
     */
    public synchronized List<Port> outputsAtOddVoltage(String bank) {
        if (outputsAtOddVoltage == null) {
            outputsAtOddVoltage =
                    ports.stream()
                            .filter(this::isAtOddVoltage)
                            .collect(Collectors.groupingBy(p -> padOf(p).bank()));
        }
        return outputsAtOddVoltage.getOrDefault(bank, List.of());
    }

    /**
     * The ports whose pads' drivers a net switches without a register between: it comes to the IO
     * register sites of their enables, where no cells stand. O(ports) the first time.
     */
    public synchronized List<Port> switchedBy(Net net) {
        if (switchedByNet == null) {
            switchedByNet = new HashMap<>();
            for (Port port : ports) {
                if (port.direction() != PortDirection.IN) {
                    EnableBranch.netsAt(this, padOf(port).enableSite())
                            .forEach(
                                    n ->
                                            switchedByNet
                                                    .computeIfAbsent(n.id(), x -> new ArrayList<>())
                                                    .add(port));
                }
            }
        }
        return switchedByNet.getOrDefault(net.id(), List.of());
    }

    /**
     * The pins of the IO register sites of enables that are tied on: nothing else may come there.
     * O(ports) the first time.
     */
    public synchronized IntSet tiedPins() {
        if (tiedPins == null) {
            tiedPins = new IntOpenHashSet();
            for (Port port : ports) {
                int site = padOf(port).enableSite();
                if (port.enableTied() && site != Fabric.NOTHING) {
                    SiteView view = shared.fabric.site(site);
                    for (int pin = 0; pin < view.pins().size(); pin++) {
                        tiedPins.add(view.firstPin() + pin);
                    }
                }
            }
        }
        return tiedPins;
    }

    private Pad padOf(Port port) {
        return shared.fabric.pads().get(port.pad());
    }

    private boolean isAtOddVoltage(Port port) {
        String name = port.setting().isEmpty() ? padOf(port).defaultSetting() : port.setting();
        Optional<DriverSetting> setting = shared.fabric.info().findSetting(name);
        Optional<Bank> bank = shared.fabric.info().findBank(padOf(port).bank());
        return port.direction() != PortDirection.IN
                && setting.isPresent()
                && bank.isPresent()
                && setting.get().millivolts() != bank.get().millivolts();
    }

    /** The vertex at which a terminal meets the fabric. */
    public int vertexOf(Terminal terminal) {
        if (terminal instanceof Terminal.CellPin at) {
            return shared.fabric.findPin(cells.get(at.cell()).site(), at.pin());
        }
        Terminal.PortEnd end = (Terminal.PortEnd) terminal;
        return end.vertexOn(shared.fabric, ports.get(end.port()));
    }

    /**
     * A terminal as people write it: {@code cell.pin}, {@code port NAME} or {@code enable of port
     * NAME}.
     */
    public String textOf(Terminal terminal) {
        if (terminal instanceof Terminal.CellPin at) {
            return cells.get(at.cell()).name() + "." + at.pin();
        }
        Terminal.PortEnd end = (Terminal.PortEnd) terminal;
        return end.toText(ports.get(end.port()));
    }
}
