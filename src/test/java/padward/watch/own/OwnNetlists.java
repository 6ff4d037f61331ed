package padward.watch.own;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import padward.base.BadInput;
import padward.design.Netlist;
import padward.design.PortDirection;
import padward.design.Terminal;
import padward.fabric.CellFunction;
import padward.fabric.CellKind;
import padward.watch.circuit.Signal;
import padward.watch.library.Own;
import padward.watch.library.Recipe;

/** Netlists as tests need them, without a file. */
public final class OwnNetlists {
    /** Names of the pins of tables. */
    static final List<String> INPUTS = List.of("a", "b", "c", "d");

    /** A table of four inputs, a register with enable and reset, and a cell of unknown function. */
    static final List<CellKind> KINDS =
            List.of(
                    CellKind.lookupTable(
                            "look",
                            new CellFunction.LookupTable(
                                    INPUTS, "y", "t", CellFunction.Digits.HEXADECIMAL, "")),
                    CellKind.register(
                            "keep",
                            new CellFunction.Register(
                                    "d",
                                    "c",
                                    "q",
                                    Optional.of("e"),
                                    Optional.of("r"),
                                    CellFunction.Initial.LOW,
                                    Optional.of("start"),
                                    Optional.empty(),
                                    Optional.empty(),
                                    Optional.empty())),
                    new CellKind("memory", true));

    private final List<Netlist.LogicalCell> cells = new ArrayList<>();
    private final List<Netlist.LogicalPort> ports = new ArrayList<>();
    private final Map<String, Terminal> drivers = new LinkedHashMap<>();
    private final Map<String, List<Terminal>> sinks = new LinkedHashMap<>();

    /** An input port, with a net of its name. */
    OwnNetlists in(String name) {
        drivers.put(name, new Terminal.PortEnd(ports.size()));
        ports.add(new Netlist.LogicalPort(name, PortDirection.IN));
        return this;
    }

    /** An output port on a net. */
    OwnNetlists out(String name, String net) {
        sinks.computeIfAbsent(net, n -> new ArrayList<>()).add(new Terminal.PortEnd(ports.size()));
        ports.add(new Netlist.LogicalPort(name, PortDirection.OUT));
        return this;
    }

    /** A cell whose output pin drives a net of the cell's name. */
    OwnNetlists cell(
            String name,
            String kind,
            String output,
            Map<String, String> settings,
            Map<String, String> netAtPin) {
        int number = cells.size();
        drivers.put(name, new Terminal.CellPin(number, output));
        netAtPin.forEach(
                (pin, net) ->
                        sinks.computeIfAbsent(net, n -> new ArrayList<>())
                                .add(new Terminal.CellPin(number, pin)));
        cells.add(new Netlist.LogicalCell(name, kind, settings, Optional.empty()));
        return this;
    }

    /** A lookup table; nets by the names of its pins. */
    OwnNetlists look(String name, String contents, Map<String, String> netAtPin) {
        return cell(name, "look", "y", Map.of("t", contents), netAtPin);
    }

    /** A register. */
    OwnNetlists keep(String name, Map<String, String> netAtPin) {
        return cell(name, "keep", "q", Map.of(), netAtPin);
    }

    OwnNetlist own() {
        List<Netlist.LogicalNet> nets = new ArrayList<>();
        drivers.forEach(
                (name, driver) ->
                        nets.add(
                                new Netlist.LogicalNet(
                                        name, driver, sinks.getOrDefault(name, List.of()), false)));
        return new OwnNetlist("t.v", new Netlist("t", cells, ports, nets), KINDS, List.of());
    }

    NetlistLogic logic() throws BadInput {
        return new NetlistLogic(own());
    }

    /** Registers and tables in a chain, one after the other, each with one of some nets. */
    public static Recipe chain(List<String> nets, String clock) throws BadInput {
        OwnNetlists made = new OwnNetlists().in("clock").in("in[0]");
        Map<String, Signal> signals = new LinkedHashMap<>();
        signals.put("in[0]", new Signal.Observed(nets.get(0)));
        String last = "in[0]";
        for (int i : IntStream.range(1, nets.size()).toArray()) {
            made.in("in[" + i + "]");
            signals.put("in[" + i + "]", new Signal.Observed(nets.get(i)));
            made.keep("kept[" + i + "]", Map.of("d", last, "c", "clock"));
            made.look("x[" + i + "]", "6666", Map.of("a", "kept[" + i + "]", "b", "in[" + i + "]"));
            last = "x[" + i + "]";
        }
        return new Own(new Bound(made.out("out", last).logic(), signals, Map.of("clock", clock)));
    }
}
