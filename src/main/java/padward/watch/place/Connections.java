package padward.watch.place;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import padward.design.Design;
import padward.design.Net;
import padward.design.PadNames;
import padward.design.Port;
import padward.fabric.Fabric;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitElement;
import padward.watch.circuit.Signal;

/**
 * What a circuit connects, with numbers in place of names: its sources, and for each element the
 * sources of its inputs and of its clock. Immutable.
 */
final class Connections {
    private final Circuit circuit;
    private final List<Source> sources;
    private final int[][] inputs;
    private final int[] clocks;
    private final int[] outputs;

    private Connections(
            Circuit circuit, List<Source> sources, int[][] inputs, int[] clocks, int[] outputs) {
        this.circuit = circuit;
        this.sources = List.copyOf(sources);
        this.inputs = inputs;
        this.clocks = clocks;
        this.outputs = outputs;
    }

    /**
     * Looks the circuit's names up in a design.
     *
     * @throws IllegalArgumentException when a net or pad is not there
     */
    static Connections of(Circuit circuit, Design design) {
        Map<Source, Integer> numbers = new LinkedHashMap<>();
        int count = circuit.elements().size();
        int[][] inputs = new int[count][];
        int[] clocks = new int[count];
        for (int e = 0; e < count; e++) {
            CircuitElement element = circuit.elements().get(e);
            inputs[e] =
                    element.inputs().stream()
                            .mapToInt(s -> number(numbers, source(s, design)))
                            .toArray();
            clocks[e] =
                    element instanceof CircuitElement.Register register
                            ? number(numbers, new Source.OfNet(net(register.clock(), design)))
                            : Fabric.NOTHING;
        }
        int[] outputs =
                circuit.outputs().stream()
                        .mapToInt(o -> number(numbers, source(o.signal(), design)))
                        .toArray();
        return new Connections(circuit, new ArrayList<>(numbers.keySet()), inputs, clocks, outputs);
    }

    private static int number(Map<Source, Integer> numbers, Source source) {
        return numbers.computeIfAbsent(source, s -> numbers.size());
    }

    private static Source source(Signal signal, Design design) {
        if (signal instanceof Signal.Made made) {
            return new Source.OfElement(made.element());
        }
        if (signal instanceof Signal.Observed observed) {
            return new Source.OfNet(net(observed.net(), design));
        }
        String name = ((Signal.AtPad) signal).pad();
        int pad =
                PadNames.findExact(design.fabric(), name)
                        .orElseThrow(() -> new IllegalArgumentException("there is no pad " + name));
        // What a port reads there already is a net like others.
        Optional<Port> port = design.findPortOn(pad);
        Optional<Net> read =
                design.occupancy()
                        .findNetOn(design.fabric().pads().get(pad).vertex())
                        .filter(n -> port.isPresent())
                        .filter(n -> n.route().root() == padVertex(design, pad));
        return read.<Source>map(Source.OfNet::new).orElse(new Source.OfPad(pad));
    }

    private static int padVertex(Design design, int pad) {
        return design.fabric().pads().get(pad).vertex();
    }

    private static Net net(String name, Design design) {
        return design.findNet(name)
                .orElseThrow(() -> new IllegalArgumentException("there is no net " + name));
    }

    Circuit circuit() {
        return circuit;
    }

    /** Number of elements. */
    int elements() {
        return inputs.length;
    }

    List<Source> sources() {
        return sources;
    }

    /** Sources of an element's inputs, in their order, without its clock. */
    int[] inputs(int element) {
        return inputs[element];
    }

    /** Source of an element's clock, {@link Fabric#NOTHING} for tables. */
    int clock(int element) {
        return clocks[element];
    }

    /** Sources of the outputs. */
    int[] outputs() {
        return outputs;
    }

    /**
     * The number of the source that an element is; {@link Fabric#NOTHING} when nothing reads it.
     */
    int sourceOf(int element) {
        return sources.indexOf(new Source.OfElement(element));
    }
}
