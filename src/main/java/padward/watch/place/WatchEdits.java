package padward.watch.place;

import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedList;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import padward.change.Edit;
import padward.design.Design;
import padward.design.RouteTree;
import padward.fabric.CellFunction;
import padward.fabric.Pad;
import padward.watch.circuit.CellSpelling;
import padward.watch.circuit.CircuitElement;
import padward.watch.circuit.Signal;
import padward.watch.circuit.TruthTable;

/** The edits that put a wired layout into a design. */
final class WatchEdits {
    private final Connections connections;
    private final Design design;
    private final Wiring wiring;
    private final String prefix;
    private final String portPrefix;

    WatchEdits(Connections connections, Design design, Wiring wiring) {
        this.connections = connections;
        this.design = design;
        this.wiring = wiring;
        int number = 1;
        while (isTaken(prefix(number)) || isPortTaken(portPrefix(number))) {
            number++;
        }
        this.prefix = prefix(number);
        this.portPrefix = portPrefix(number);
    }

    private String prefix(int number) {
        return "watch/" + connections.circuit().name() + number + "/";
    }

    private String portPrefix(int number) {
        return "watch_" + connections.circuit().name() + number + "_";
    }

    private boolean isTaken(String start) {
        return design.cells().stream().anyMatch(c -> c.name().startsWith(start))
                || design.nets().stream().anyMatch(n -> n.name().startsWith(start));
    }

    private boolean isPortTaken(String start) {
        return design.ports().stream().anyMatch(p -> p.name().startsWith(start));
    }

    /** Name of an element's cell, and of the net that it drives. */
    String nameOf(int element) {
        return prefix + connections.circuit().elements().get(element).name();
    }

    /** Cells first, then the nets that they drive, then branches of nets that are there. */
    List<Edit> all() {
        List<Edit> edits = new ArrayList<>();
        for (int e = 0; e < connections.elements(); e++) {
            FreeSite freeSite = wiring.layout().sites().get(e);
            edits.add(
                    new Edit.AddCell(
                            nameOf(e), freeSite.kind(), freeSite.site().name(), settings(e)));
        }
        List<Edit> branches = new ArrayList<>();
        for (int s = 0; s < connections.sources().size(); s++) {
            Source source = connections.sources().get(s);
            RouteTree tree = wiring.trees().get(s);
            List<Edit.CellEnd> ends = wiring.sinks().get(s).stream().map(this::end).toList();
            if (source instanceof Source.OfElement of) {
                FreeSite freeSite = wiring.layout().sites().get(of.element());
                Edit.CellEnd driver =
                        new Edit.CellEnd(nameOf(of.element()), freeSite.function().output());
                edits.add(new Edit.AddNet(nameOf(of.element()), driver, ends, tree, false));
            } else if (source instanceof Source.OfPad of) {
                edits.add(input(of.pad(), ends, tree));
            } else {
                branches.addAll(branches(((Source.OfNet) source), s));
            }
        }
        edits.addAll(branches);
        return edits;
    }

    private Edit input(int pad, List<Edit.CellEnd> ends, RouteTree tree) {
        Pad read = design.fabric().pads().get(pad);
        String place = read.packagePin().isEmpty() ? read.name() : read.packagePin();
        return new Edit.AddInput(
                prefix + "at_" + place, portPrefix + place, read.name(), ends, tree);
    }

    private Edit.CellEnd end(Wiring.Sink sink) {
        FreeSite freeSite = wiring.layout().sites().get(sink.element());
        return new Edit.CellEnd(nameOf(sink.element()), freeSite.pinAt(sink.vertex()));
    }

    /** One branch for each sink, from what the net has by then. */
    private List<Edit> branches(Source.OfNet of, int source) {
        List<Edit> result = new ArrayList<>();
        RouteTree tree = wiring.trees().get(source);
        IntSet on = new IntOpenHashSet(of.net().route().toVertices());
        for (Wiring.Sink sink : wiring.sinks().get(source)) {
            LinkedList<Integer> route = new LinkedList<>();
            int place = tree.placeOf(sink.vertex());
            while (!on.contains(tree.vertex(place))) {
                route.addFirst(tree.vertex(place));
                place = tree.parent(place);
            }
            on.addAll(route);
            route.addFirst(tree.vertex(place));
            result.add(new Edit.AddSink(of.net().name(), end(sink), route));
        }
        return result;
    }

    private Map<String, String> settings(int element) {
        CircuitElement what = connections.circuit().elements().get(element);
        FreeSite freeSite = wiring.layout().sites().get(element);
        if (what instanceof CircuitElement.Register register) {
            return CellSpelling.settings(register, (CellFunction.Register) freeSite.function());
        }
        CellFunction.LookupTable kind = (CellFunction.LookupTable) freeSite.function();
        return CellSpelling.settings(pinned((CircuitElement.Table) what, freeSite, element), kind);
    }

    /** The table as a function of the pins that its inputs came to. */
    private CircuitElement.Table pinned(
            CircuitElement.Table table, FreeSite freeSite, int element) {
        int[] pins = freeSite.inputVertices();
        int[] vertices = wiring.inputs().get(element);
        int[] pinOfInput =
                Arrays.stream(vertices)
                        .map(v -> IntStream.range(0, pins.length).filter(p -> pins[p] == v).sum())
                        .toArray();
        TruthTable function =
                TruthTable.of(
                        pins.length,
                        row -> {
                            int own = 0;
                            for (int i = 0; i < pinOfInput.length; i++) {
                                own |= (row >> pinOfInput[i] & 1) << i;
                            }
                            return table.function().value(own);
                        });
        // The contents alone are wanted, so that it does not matter what the pins are fed by.
        List<Signal> any = Collections.nCopies(pins.length, new Signal.Made(0));
        return new CircuitElement.Table(table.name(), any, function);
    }
}
