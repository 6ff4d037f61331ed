package padward.watch.place;

import java.util.List;
import padward.design.RouteTree;

/**
 * A layout with its routes.
 *
 * @param layout the layout
 * @param inputs by element, the vertex for each of its inputs
 * @param trees by source, its wires to all its sinks in the circuit, those that it has included
 * @param sinks by source, its sinks
 */
record Wiring(Layout layout, List<int[]> inputs, List<RouteTree> trees, List<List<Sink>> sinks) {
    Wiring {
        inputs = List.copyOf(inputs);
        trees = List.copyOf(trees);
        sinks = sinks.stream().map(List::copyOf).toList();
    }

    /**
     * A pin that a source feeds.
     *
     * @param element number of the element
     * @param vertex vertex of the pin
     */
    record Sink(int element, int vertex) {}
}
