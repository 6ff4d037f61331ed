package padward.watch.place;

import padward.design.Net;

/** Where a signal of a circuit comes from, on a certain design. */
sealed interface Source {
    /**
     * A net of the design.
     *
     * @param net the net
     */
    record OfNet(Net net) implements Source {}

    /**
     * The output of an element of the circuit.
     *
     * @param element its number
     */
    record OfElement(int element) implements Source {}

    /**
     * A pad that no port uses.
     *
     * @param pad its index
     */
    record OfPad(int pad) implements Source {}
}
