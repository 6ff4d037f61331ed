package padward.watch.own;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import padward.base.BadInput;
import padward.design.Netlist;
import padward.design.Terminal;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitElement;
import padward.watch.circuit.Signal;
import padward.watch.circuit.StartState;
import padward.watch.circuit.TruthTable;

/**
 * Makes the circuit of a netlist whose input ports are bound to nets: cell by cell, each function
 * as the netlist states it.
 */
final class OwnCircuit {
    private static final int MOST_NAMED = 8;

    private final NetlistLogic logic;
    private final Netlist netlist;
    private final Bound bound;
    private final int tableInputs;
    private final Map<Integer, Integer> elementOfCell = new HashMap<>();
    private final List<CircuitElement> elements = new ArrayList<>();
    private final List<CircuitElement> added = new ArrayList<>();
    private final Set<String> names = new HashSet<>();

    private OwnCircuit(Bound bound, int tableInputs) {
        this.bound = bound;
        this.logic = bound.logic();
        this.netlist = logic.own().netlist();
        this.tableInputs = tableInputs;
    }

    /**
     * The circuit.
     *
     * @param tableInputs most inputs of a lookup table
     * @throws BadInput when a register's enable and reset need more inputs than a table has
     */
    static Circuit of(Bound bound, int tableInputs) throws BadInput {
        return new OwnCircuit(bound, tableInputs).made();
    }

    private Circuit made() throws BadInput {
        int number = 0;
        for (int cell : logic.parts().keySet()) {
            elementOfCell.put(cell, number++);
            names.add(netlist.cells().get(cell).name());
        }
        for (Map.Entry<Integer, NetlistLogic.Part> part : logic.parts().entrySet()) {
            elements.add(element(part.getKey(), part.getValue()));
        }
        elements.addAll(added);
        List<Circuit.Output> outputs = new ArrayList<>();
        for (NetlistLogic.Leaving leaving : logic.outputs()) {
            outputs.add(
                    new Circuit.Output(
                            leaving.name(), new Signal.Made(elementOfCell.get(leaving.cell()))));
        }
        return new Circuit(
                "own", function(), elements, outputs, latency(outputs.get(0)), start(), cautions());
    }

    private CircuitElement element(int cell, NetlistLogic.Part part) throws BadInput {
        String name = netlist.cells().get(cell).name();
        ReducedFunction function = part.function();
        List<Signal> inputs = new ArrayList<>();
        for (int net : function.nets()) {
            inputs.add(signal(net));
        }
        if (part.clock().isEmpty()) {
            return new CircuitElement.Table(name, inputs, function.function());
        }
        String clock = bound.clocks().get(netlist.ports().get(part.clock().getAsInt()).name());
        Signal data = function.isNet() ? inputs.get(0) : before(name, inputs, function.function());
        return new CircuitElement.Register(name, data, clock, part.initial());
    }

    /** A table before a register that does what its enable and its reset do. */
    private Signal before(String cell, List<Signal> inputs, TruthTable function) throws BadInput {
        if (inputs.size() <= tableInputs) {
            return add(cell + "/data", inputs, function);
        }
        int last = inputs.size() - 1; // the reset, which makes it low
        if (last > tableInputs || function.with(last, true).highRows() > 0) {
            throw new BadInput(
                    logic.own().file(),
                    "cell " + cell,
                    "an enable and a reset that tables of " + tableInputs + " inputs can do",
                    "a function of " + inputs.size() + " inputs");
        }
        Signal rest = add(cell + "/taken", inputs.subList(0, last), function.with(last, false));
        return add(cell + "/data", List.of(rest, inputs.get(last)), TruthTable.of(2, r -> r == 1));
    }

    private Signal add(String wanted, List<Signal> inputs, TruthTable function) {
        String name = wanted;
        while (!names.add(name)) {
            name += "'";
        }
        added.add(new CircuitElement.Table(name, inputs, function));
        return new Signal.Made(elementOfCell.size() + added.size() - 1);
    }

    private Signal signal(int net) {
        if (logic.driver(net) instanceof Terminal.PortEnd end) {
            String port = netlist.ports().get(end.port()).name();
            return Optional.ofNullable(bound.signals().get(port))
                    .orElseGet(() -> new Signal.Observed(bound.clocks().get(port)));
        }
        return new Signal.Made(elementOfCell.get(((Terminal.CellPin) logic.driver(net)).cell()));
    }

    private String function() {
        List<String> where = new ArrayList<>();
        bound.signals().forEach((port, signal) -> where.add(port + " is " + text(signal)));
        int more = where.size() - MOST_NAMED;
        List<String> said = new ArrayList<>(more > 0 ? where.subList(0, MOST_NAMED) : where);
        if (more > 0) {
            said.add(more + " more");
        }
        bound.clocks().forEach((port, net) -> said.add(port + " is " + net));
        String first = logic.outputs().get(0).name();
        return "Output "
                + first
                + " of your netlist "
                + netlist.name()
                + (said.isEmpty() ? "" : ": " + String.join(", ", said))
                + ".";
    }

    private static String text(Signal signal) {
        return signal instanceof Signal.AtPad pad
                ? "pad " + pad.pad()
                : ((Signal.Observed) signal).net();
    }

    /** The fewest registers between what comes from outside and an output. */
    private int latency(Circuit.Output output) {
        record Place(Signal signal, int registers) {}
        Set<Signal> seen = new HashSet<>();
        Deque<Place> open = new ArrayDeque<>(List.of(new Place(output.signal(), 0)));
        while (!open.isEmpty()) {
            Place place = open.pollFirst();
            if (!(place.signal() instanceof Signal.Made made)) {
                return place.registers();
            }
            if (!seen.add(made)) {
                continue;
            }
            CircuitElement element = elements.get(made.element());
            for (Signal input : element.inputs()) {
                if (element instanceof CircuitElement.Register) {
                    open.addLast(new Place(input, place.registers() + 1));
                } else {
                    open.addFirst(new Place(input, place.registers()));
                }
            }
        }
        return 1; // it depends on its own registers alone, as a divider does
    }

    private StartState start() {
        boolean stated = logic.parts().values().stream().anyMatch(p -> p.initial().isPresent());
        return stated ? new StartState(StartState.Kind.INITIAL_VALUES, 0) : StartState.any(0);
    }

    private List<String> cautions() {
        List<String> result = new ArrayList<>();
        if (logic.outputs().stream().anyMatch(o -> logic.parts().get(o.cell()).clock().isEmpty())) {
            result.add(Circuit.GLITCHES);
        }
        int left = netlist.cells().size() - logic.parts().size();
        if (left > 0) {
            result.add(
                    left
                            + (left == 1 ? " cell of the netlist is" : " cells of the netlist are")
                            + " left out, because no output depends on "
                            + (left == 1 ? "it." : "them."));
        }
        unknownStart().ifPresent(result::add);
        logic.own().notes().forEach(n -> result.add(sentence(n)));
        return result;
    }

    /** That some registers state no initial value where others do. */
    private Optional<String> unknownStart() {
        List<String> unknown = new ArrayList<>();
        boolean stated = false;
        for (Map.Entry<Integer, NetlistLogic.Part> part : logic.parts().entrySet()) {
            if (part.getValue().clock().isPresent()) {
                if (part.getValue().initial().isPresent()) {
                    stated = true;
                } else {
                    unknown.add(netlist.cells().get(part.getKey()).name());
                }
            }
        }
        if (!stated || unknown.isEmpty()) {
            return Optional.empty();
        }
        int more = unknown.size() - MOST_NAMED;
        String names =
                more > 0
                        ? String.join(", ", unknown.subList(0, MOST_NAMED))
                                + " and "
                                + more
                                + " more"
                        : String.join(", ", unknown);
        return Optional.of(
                "Only some registers of the netlist state an initial value; these state none and"
                        + " may begin at 0 or 1: "
                        + names
                        + ".");
    }

    private static String sentence(String note) {
        return Character.toUpperCase(note.charAt(0)) + note.substring(1) + ".";
    }
}
