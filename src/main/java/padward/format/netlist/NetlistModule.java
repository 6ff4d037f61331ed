package padward.format.netlist;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import padward.design.PortDirection;

/** A module as a file describes it: ports, nets, instances and their connections. */
final class NetlistModule {
    /**
     * An instance.
     *
     * @param name its name
     * @param type its type
     * @param pins nets at its pins, leftmost bit first; {@code #0}, {@code #1} … for pins by order
     * @param parameters parameters that are set
     * @param place its place in the file
     */
    record Instance(
            String name,
            String type,
            Map<String, List<Bit>> pins,
            Map<String, String> parameters,
            String place) {}

    /**
     * Bits that are one net.
     *
     * @param left bits, leftmost first
     * @param right as many
     */
    record Joined(List<Bit> left, List<Bit> right) {}

    final String name;

    /** Directions of the ports in their order; {@code BOTH} means inout. */
    final Map<String, PortDirection> ports = new LinkedHashMap<>();

    /** Ranges of all nets, ports included. */
    final Map<String, Range> nets = new LinkedHashMap<>();

    final List<Instance> instances = new ArrayList<>();
    final List<Joined> joined = new ArrayList<>();

    NetlistModule(String name) {
        this.name = name;
    }
}
