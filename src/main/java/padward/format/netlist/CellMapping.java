package padward.format.netlist;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import padward.design.Netlist;

/**
 * What the types of a netlist's cells are on a fabric.
 *
 * @param name name of the mapping
 * @param types what each type is, by its name
 */
public record CellMapping(String name, Map<String, Type> types) {
    /** Copies the map. */
    public CellMapping {
        types = new LinkedHashMap<>(types);
    }

    /** What a type is. */
    public sealed interface Type {}

    /**
     * A cell.
     *
     * @param kind kind of cell on the fabric
     * @param pins names of pins at its sites, by those of the netlist
     * @param settings settings that every such cell gets
     * @param parameters names of settings by those of the netlist's parameters; others keep theirs
     * @param clocks pins of the netlist at which nets are clocks
     * @param atPad what it becomes in a pad's IO register site, if it can be placed there
     */
    public record OfCell(
            String kind,
            Map<String, String> pins,
            Map<String, String> settings,
            Map<String, String> parameters,
            List<String> clocks,
            Optional<Netlist.AtPad> atPad)
            implements Type {
        /** Copies the parts. */
        public OfCell {
            pins = new LinkedHashMap<>(pins);
            settings = Map.copyOf(settings);
            parameters = Map.copyOf(parameters);
            clocks = List.copyOf(clocks);
        }
    }

    /**
     * No cell: two of its pins are one net, as of a buffer.
     *
     * @param from one pin
     * @param to the other
     */
    public record Joins(String from, String to) implements Type {}

    /**
     * No cell: the driver of a port's pad that can be switched off.
     *
     * @param pad the pin at the port
     * @param out the pin with what goes out
     * @param in the pin with what comes in; {@code ""} when there is none, as it is at the port
     * @param enable the pin that switches the driver
     */
    public record AtPort(String pad, String out, String in, String enable) implements Type {}

    /**
     * No cell: a pin with a constant.
     *
     * @param pin the pin
     * @param value 0 or 1
     */
    public record Constant(String pin, int value) implements Type {}
}
