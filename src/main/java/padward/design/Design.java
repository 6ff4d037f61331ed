package padward.design;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import padward.fabric.Bank;
import padward.fabric.DriverSetting;
import padward.fabric.Fabric;
import padward.fabric.Pad;

/**
 * A finished design: what it occupies of a fabric, and the board around. Immutable; occupancy is
 * derived from cells and nets, never stored beside them.
 */
public final class Design {
    private final String name;
    private final String note;
    private final Fabric fabric;
    private final Board board;
    private final List<Cell> cells;
    private final List<Net> nets;
    private final List<Port> ports;
    private final Map<String, Net> netByName = new HashMap<>();
    private final Map<String, Cell> cellByName = new HashMap<>();
    private final Map<Integer, Port> portByPad = new HashMap<>();
    private final Occupancy occupancy;

    /** Ports set for another voltage than their bank's, by bank; made when first asked for. */
    private Map<String, List<Port>> portsAtOddVoltage;

    /** Nets by the numbers of the cells at their ends; made when first asked for. */
    private Map<Integer, List<Net>> netsByCell;

    /**
     * Takes checked parts: names unique, numbers equal to list positions, wires used once. The file
     * reader checks them and reports faults; a breach here is a programmer's mistake.
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
        this.name = name;
        this.note = note;
        this.fabric = fabric;
        this.board = board;
        this.cells = List.copyOf(cells);
        this.nets = List.copyOf(nets);
        this.ports = List.copyOf(ports);
        this.nets.forEach(n -> netByName.put(n.name(), n));
        this.cells.forEach(c -> cellByName.put(c.name(), c));
        this.ports.forEach(p -> portByPad.putIfAbsent(p.pad(), p));
        this.occupancy = new Occupancy(fabric, this.cells, this.nets);
    }

    /** Name of the design. */
    public String name() {
        return name;
    }

    /** Free text from the file. */
    public String note() {
        return note;
    }

    /** The fabric it stands on. */
    public Fabric fabric() {
        return fabric;
    }

    /** The board around the chip, {@link Board#UNKNOWN} when none is given. */
    public Board board() {
        return board;
    }

    /** Cells by number. */
    public List<Cell> cells() {
        return cells;
    }

    /** Nets by number. */
    public List<Net> nets() {
        return nets;
    }

    /** Ports by number. */
    public List<Port> ports() {
        return ports;
    }

    /** Who holds what. */
    public Occupancy occupancy() {
        return occupancy;
    }

    /** The net of that full name. */
    public Optional<Net> findNet(String netName) {
        return Optional.ofNullable(netByName.get(netName));
    }

    /** The cell of that full name. */
    public Optional<Cell> findCell(String cellName) {
        return Optional.ofNullable(cellByName.get(cellName));
    }

    /** The nets that a cell drives or that feed it, each once. O(ends) the first time. */
    public List<Net> netsAt(int cell) {
        return netsByCell().getOrDefault(cell, List.of());
    }

    /** The nets that a cell drives, each once. O(ends) the first time, then O(nets of the cell). */
    public List<Net> netsDrivenBy(int cell) {
        return netsAt(cell).stream().filter(n -> n.driverCell() == cell).toList();
    }

    private synchronized Map<Integer, List<Net>> netsByCell() {
        if (netsByCell == null) {
            Map<Integer, List<Net>> result = new HashMap<>();
            for (Net net : nets) {
                for (Terminal end : net.ends()) {
                    if (end instanceof Terminal.CellPin at) {
                        List<Net> known = result.computeIfAbsent(at.cell(), c -> new ArrayList<>());
                        if (known.isEmpty() || known.get(known.size() - 1) != net) {
                            known.add(net);
                        }
                    }
                }
            }
            netsByCell = result;
        }
        return netsByCell;
    }

    /** The port on a pad, by the pad's index in {@code fabric.pads()}. O(1). */
    public Optional<Port> findPortOn(int pad) {
        return Optional.ofNullable(portByPad.get(pad));
    }

    /**
     * The ports of a bank whose settings are for another voltage than the bank's, in their order.
     * O(ports) the first time.
     */
    public synchronized List<Port> portsAtOddVoltage(String bank) {
        if (portsAtOddVoltage == null) {
            portsAtOddVoltage =
                    ports.stream()
                            .filter(this::isAtOddVoltage)
                            .collect(Collectors.groupingBy(p -> padOf(p).bank()));
        }
        return portsAtOddVoltage.getOrDefault(bank, List.of());
    }

    private Pad padOf(Port port) {
        return fabric.pads().get(port.pad());
    }

    private boolean isAtOddVoltage(Port port) {
        String name = port.setting().isEmpty() ? padOf(port).defaultSetting() : port.setting();
        Optional<DriverSetting> setting = fabric.info().findSetting(name);
        Optional<Bank> bank = fabric.info().findBank(padOf(port).bank());
        return setting.isPresent()
                && bank.isPresent()
                && setting.get().millivolts() != bank.get().millivolts();
    }

    /** The vertex at which a terminal meets the fabric. */
    public int vertexOf(Terminal terminal) {
        if (terminal instanceof Terminal.CellPin at) {
            return fabric.site(cells.get(at.cell()).site()).findPin(at.pin());
        }
        return fabric.pads().get(ports.get(((Terminal.PortEnd) terminal).port()).pad()).vertex();
    }

    /** A terminal as people write it: {@code cell.pin} or {@code port NAME}. */
    public String textOf(Terminal terminal) {
        if (terminal instanceof Terminal.CellPin at) {
            return cells.get(at.cell()).name() + "." + at.pin();
        }
        return "port " + ports.get(((Terminal.PortEnd) terminal).port()).name();
    }
}
