package padward.watch.place;

import padward.fabric.CellFunction;
import padward.fabric.Fabric;
import padward.fabric.SiteView;

/**
 * A free site with a kind of cell that can be placed there.
 *
 * @param site the site
 * @param kind name of the kind
 * @param function what the kind does
 */
record FreeSite(SiteView site, String kind, CellFunction function) {
    int vertexOf(String pin) {
        return site.findPin(pin);
    }

    int outVertex() {
        return vertexOf(function.output());
    }

    /** Vertices of the pins for an element's inputs, any of which will do for any of them. */
    int[] inputVertices() {
        if (function instanceof CellFunction.LookupTable table) {
            return table.inputs().stream().mapToInt(this::vertexOf).toArray();
        }
        return new int[] {vertexOf(((CellFunction.Register) function).data())};
    }

    /** Vertex of the clock's pin; {@link Fabric#NOTHING} for tables. */
    int clockVertex() {
        return function instanceof CellFunction.Register register
                ? vertexOf(register.clock())
                : Fabric.NOTHING;
    }

    String pinAt(int vertex) {
        return site.pins().get(vertex - site.firstPin()).name();
    }
}
