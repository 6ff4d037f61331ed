package padward.format.netlist;

/** One bit of a signal inside a module. */
sealed interface Bit {
    /**
     * A bit of a net.
     *
     * @param net name of the net
     * @param index its index, or {@link Range#SCALAR} of a net that is no vector
     */
    record OfNet(String net, int index) implements Bit {}

    /**
     * A constant.
     *
     * @param value {@code 0}, {@code 1}, {@code x} or {@code z}
     */
    record Constant(char value) implements Bit {}
}
