package padward.watch.own;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import padward.base.BadInput;
import padward.design.Netlist;
import padward.design.PortDirection;
import padward.design.Terminal;
import padward.fabric.CellFunction;
import padward.fabric.CellKind;
import padward.watch.circuit.TruthTable;

/**
 * What a netlist does, as far as its outputs depend on it: functions of nets, and registers. Cells
 * on which no output depends are left out. Immutable.
 */
public final class NetlistLogic {
    /** Most cells of a netlist that is placed beside a design. */
    public static final int MOST_CELLS = 200;

    private static final int CLEAR = 3;
    private static final int TAKE = 2;
    private static final int KEPT = 1;

    private final OwnNetlist own;
    private final Netlist netlist;

    /** By number of a cell, what is at its pins: numbers of nets, or constants. */
    private final List<Map<String, Integer>> pins = new ArrayList<>();

    private final Map<Integer, Part> parts = new TreeMap<>();
    private final List<Leaving> outputs = new ArrayList<>();

    /**
     * A cell that is needed.
     *
     * @param function its function, or that of a register's data
     * @param clock number of the port that clocks it, if it is a register
     * @param initial its value at the start, where the netlist states one
     */
    record Part(ReducedFunction function, OptionalInt clock, Optional<Boolean> initial) {}

    /**
     * An output port.
     *
     * @param name name of the port
     * @param cell number of the cell that drives it
     */
    record Leaving(String name, int cell) {}

    /**
     * Looks at a netlist.
     *
     * @throws BadInput when it has no output, or an output depends on what is no function of tables
     *     and registers
     */
    public NetlistLogic(OwnNetlist own) throws BadInput {
        this.own = own;
        this.netlist = own.netlist();
        collectPins();
        collectOutputs();
        collectParts();
        requireNoLoop();
    }

    private void collectPins() {
        for (Netlist.LogicalCell cell : netlist.cells()) {
            Map<String, Integer> at = new HashMap<>();
            cell.settings()
                    .forEach(
                            (name, value) -> {
                                if (name.startsWith(Netlist.TIED)) {
                                    at.put(
                                            name.substring(Netlist.TIED.length()),
                                            value.equals("1")
                                                    ? ReducedFunction.HIGH
                                                    : ReducedFunction.LOW);
                                }
                            });
            pins.add(at);
        }
        for (int n = 0; n < netlist.nets().size(); n++) {
            for (Terminal sink : netlist.nets().get(n).sinks()) {
                if (sink instanceof Terminal.CellPin pin) {
                    pins.get(pin.cell()).put(pin.pin(), n);
                }
            }
        }
    }

    private void collectOutputs() throws BadInput {
        Map<Integer, Netlist.LogicalNet> netAt = new HashMap<>();
        for (Netlist.LogicalNet net : netlist.nets()) {
            for (Terminal sink : net.sinks()) {
                if (sink instanceof Terminal.PortEnd end) {
                    netAt.put(end.port(), net);
                }
            }
        }
        for (int p = 0; p < netlist.ports().size(); p++) {
            Netlist.LogicalPort port = netlist.ports().get(p);
            if (port.direction() == PortDirection.BOTH) {
                throw fault("port " + port.name(), "an input or an output", "direction inout");
            }
            if (port.direction() != PortDirection.OUT) {
                continue;
            }
            Optional<Netlist.LogicalNet> net = Optional.ofNullable(netAt.get(p));
            if (net.isPresent() && net.get().driver() instanceof Terminal.CellPin driver) {
                requireStated("port " + port.name(), driver);
                outputs.add(new Leaving(port.name(), driver.cell()));
                continue;
            }
            throw fault(
                    "port " + port.name(),
                    "an output that a cell drives",
                    net.map(n -> "input " + n.name()).orElse("a constant, or nothing"));
        }
        if (outputs.isEmpty()) {
            throw fault("module " + netlist.name(), "an output port", "none");
        }
    }

    private void collectParts() throws BadInput {
        Deque<Integer> open = new ArrayDeque<>();
        outputs.forEach(o -> open.add(o.cell()));
        while (!open.isEmpty()) {
            int cell = open.remove();
            if (parts.containsKey(cell)) {
                continue;
            }
            Part part = part(cell);
            parts.put(cell, part);
            if (parts.size() > MOST_CELLS) {
                throw fault(
                        "module " + netlist.name(),
                        "at most " + MOST_CELLS + " cells on which outputs depend",
                        "more");
            }
            for (int net : part.function().nets()) {
                if (driver(net) instanceof Terminal.CellPin from) {
                    open.add(from.cell());
                }
            }
        }
    }

    private Part part(int cell) throws BadInput {
        Netlist.LogicalCell what = netlist.cells().get(cell);
        CellFunction function =
                own.kinds().stream()
                        .filter(k -> k.name().equals(what.kind()))
                        .findFirst()
                        .flatMap(CellKind::function)
                        .orElseThrow(
                                () ->
                                        fault(
                                                "cell " + what.name(),
                                                "a cell of a kind that states what it does, as a"
                                                        + " lookup table or register",
                                                "kind “" + what.kind() + "”"));
        Part part =
                function instanceof CellFunction.LookupTable table
                        ? table(cell, table)
                        : register(cell, (CellFunction.Register) function);
        if (part.function().nets().isEmpty()) {
            String level = part.function().function().value(0) ? "high" : "low";
            // A register may start at the other level: only what it takes is always the same.
            throw part.clock().isPresent()
                    ? fault(
                            "cell " + what.name(),
                            "a register whose next value depends on a net",
                            "one whose next value is always " + level)
                    : fault(
                            "cell " + what.name(),
                            "a cell whose output depends on its inputs",
                            "one that is always " + level);
        }
        for (int net : part.function().nets()) {
            if (driver(net) instanceof Terminal.CellPin from) {
                requireStated("cell " + what.name(), from);
            }
        }
        return part;
    }

    /** Whatever drives a net must drive it from the output that its kind states. */
    private void requireStated(String place, Terminal.CellPin from) throws BadInput {
        Netlist.LogicalCell cell = netlist.cells().get(from.cell());
        Optional<String> stated =
                own.kinds().stream()
                        .filter(k -> k.name().equals(cell.kind()))
                        .flatMap(k -> k.function().stream())
                        .map(CellFunction::output)
                        .findFirst();
        if (stated.isPresent() && !stated.get().equals(from.pin())) {
            throw fault(
                    place,
                    "a net from the output that the kind states, “" + stated.get() + "”",
                    "“" + from.pin() + "” of cell " + cell.name());
        }
    }

    private Part table(int cell, CellFunction.LookupTable kind) throws BadInput {
        Netlist.LogicalCell what = netlist.cells().get(cell);
        Optional<TruthTable> contents = ContentsText.read(what.settings(), kind);
        if (contents.isEmpty()) {
            String text = what.settings().getOrDefault(kind.setting(), "");
            throw fault(
                    "cell " + what.name(),
                    "contents of "
                            + kind.inputs().size()
                            + " inputs as “"
                            + kind.setting()
                            + "”, such as 16'h8000",
                    text.isEmpty() ? "none" : "“" + text + "”");
        }
        List<Integer> at =
                kind.inputs().stream()
                        .map(p -> pins.get(cell).getOrDefault(p, ReducedFunction.OPEN))
                        .toList();
        requireConnected(what, contents.get(), at, kind.inputs());
        return new Part(
                ReducedFunction.of(contents.get(), at), OptionalInt.empty(), Optional.empty());
    }

    private Part register(int cell, CellFunction.Register kind) throws BadInput {
        Netlist.LogicalCell what = netlist.cells().get(cell);
        Map<String, Integer> there = pins.get(cell);
        // Its data, what it has, enable and reset, as inputs 0 to 3.
        TruthTable next =
                TruthTable.of(
                        4,
                        row ->
                                (row >> CLEAR & 1) == 0
                                        && ((row >> TAKE & 1) == 1
                                                ? (row & 1) == 1
                                                : (row >> KEPT & 1) == 1));
        int take = kind.enable().map(there::get).orElse(ReducedFunction.HIGH);
        int clear = kind.reset().map(there::get).orElse(ReducedFunction.LOW);
        List<Integer> at =
                List.of(
                        there.getOrDefault(kind.data(), ReducedFunction.OPEN),
                        outputNet(cell, kind.output()),
                        take,
                        clear);
        requireConnected(what, next, at, List.of(kind.data(), kind.output(), "enable", "reset"));
        Optional<String> start = kind.initialSetting().map(what.settings()::get);
        Optional<Boolean> initial = start.flatMap(ContentsText::level);
        if (start.isPresent() && initial.isEmpty()) {
            throw fault(
                    "cell " + what.name(),
                    "0 or 1 as “" + kind.initialSetting().orElseThrow() + "”",
                    "“" + start.get() + "”");
        }
        return new Part(
                ReducedFunction.of(next, at),
                OptionalInt.of(clockPort(what, there, kind)),
                initial);
    }

    private int clockPort(
            Netlist.LogicalCell what, Map<String, Integer> there, CellFunction.Register kind)
            throws BadInput {
        int net = there.getOrDefault(kind.clock(), ReducedFunction.OPEN);
        if (net >= 0 && driver(net) instanceof Terminal.PortEnd port) {
            return port.port();
        }
        throw fault(
                "cell " + what.name(),
                "a clock that comes from an input port",
                net >= 0
                        ? "net " + netlist.nets().get(net).name() + ", which a cell drives"
                        : net == ReducedFunction.OPEN ? "none" : "a constant");
    }

    private void requireConnected(
            Netlist.LogicalCell what, TruthTable function, List<Integer> at, List<String> names)
            throws BadInput {
        OptionalInt missing = ReducedFunction.missing(function, at);
        if (missing.isPresent()) {
            throw fault(
                    "cell " + what.name(),
                    "a net at pin “" + names.get(missing.getAsInt()) + "”, which matters",
                    "none");
        }
    }

    private int outputNet(int cell, String pin) {
        Terminal output = new Terminal.CellPin(cell, pin);
        for (int n = 0; n < netlist.nets().size(); n++) {
            if (driver(n).equals(output)) {
                return n;
            }
        }
        return ReducedFunction.OPEN;
    }

    private void requireNoLoop() throws BadInput {
        Set<Integer> done = new HashSet<>();
        for (int cell : parts.keySet()) {
            walk(cell, new ArrayList<>(), done);
        }
    }

    private void walk(int cell, List<Integer> path, Set<Integer> done) throws BadInput {
        Part part = parts.get(cell);
        if (part.clock().isPresent() || done.contains(cell)) {
            return;
        }
        int before = path.indexOf(cell);
        if (before >= 0) {
            throw fault(
                    "cell " + netlist.cells().get(cell).name(),
                    "a register in each loop",
                    path.subList(before, path.size()).stream()
                                    .map(c -> netlist.cells().get(c).name())
                                    .collect(Collectors.joining(" ← "))
                            + " without one");
        }
        path.add(cell);
        for (int net : part.function().nets()) {
            if (driver(net) instanceof Terminal.CellPin from) {
                walk(from.cell(), path, done);
            }
        }
        path.remove(path.size() - 1);
        done.add(cell);
    }

    private BadInput fault(String place, String expected, String found) {
        return new BadInput(own.file(), place, expected, found);
    }

    OwnNetlist own() {
        return own;
    }

    Map<Integer, Part> parts() {
        return parts;
    }

    List<Leaving> outputs() {
        return outputs;
    }

    /** What drives a net. */
    Terminal driver(int net) {
        return netlist.nets().get(net).driver();
    }

    /** Names of the input ports that clock registers, in their order. */
    public List<String> clockPorts() {
        SortedSet<Integer> ports = new TreeSet<>();
        parts.values().forEach(p -> p.clock().ifPresent(ports::add));
        return names(ports);
    }

    /** Names of the input ports that cells read, those that are clocks as well apart. */
    public List<String> dataPorts() {
        SortedSet<Integer> ports = new TreeSet<>();
        for (Part part : parts.values()) {
            for (int net : part.function().nets()) {
                if (driver(net) instanceof Terminal.PortEnd end) {
                    ports.add(end.port());
                }
            }
        }
        parts.values().forEach(p -> p.clock().ifPresent(ports::remove));
        return names(ports);
    }

    /** Names of all input ports, in their order. */
    public List<String> inputPorts() {
        return netlist.ports().stream()
                .filter(p -> p.direction() == PortDirection.IN)
                .map(Netlist.LogicalPort::name)
                .toList();
    }

    private List<String> names(SortedSet<Integer> ports) {
        return ports.stream().map(p -> netlist.ports().get(p).name()).toList();
    }
}
