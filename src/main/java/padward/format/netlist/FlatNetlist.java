package padward.format.netlist;

import java.util.List;
import java.util.Map;
import padward.design.PortDirection;

/**
 * A flat netlist. Nets are numbers; {@link #ZERO} and {@link #ONE} are constant.
 *
 * @param file name of the file in messages
 * @param name name of the top module
 * @param leaves instances that contain no others
 * @param ports the top module's ports, bit by bit
 * @param names names of nets by number
 */
record FlatNetlist(
        String file, String name, List<Leaf> leaves, List<FlatPort> ports, List<String> names) {
    static final int ZERO = 0;
    static final int ONE = 1;

    /**
     * An instance of a type that the file does not describe.
     *
     * @param name hierarchical name
     * @param type its type
     * @param pins nets at its pins, leftmost bit first
     * @param parameters parameters that are set
     * @param place its place in the file
     */
    record Leaf(
            String name,
            String type,
            Map<String, int[]> pins,
            Map<String, String> parameters,
            String place) {}

    /**
     * A port of one bit.
     *
     * @param name its name, {@code led[2]}
     * @param direction its direction
     * @param net its net
     */
    record FlatPort(String name, PortDirection direction, int net) {}
}
