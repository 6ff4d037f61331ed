package padward.design;

import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * A circuit before it stands anywhere: cells by kind, ports, and nets between their pins. Terminals
 * count cells and ports by their places in the lists, and name pins as the sites do that hold such
 * cells.
 *
 * @param name name of the circuit
 * @param cells its cells
 * @param ports its ports
 * @param nets its nets, each with one driver
 */
public record Netlist(
        String name, List<LogicalCell> cells, List<LogicalPort> ports, List<LogicalNet> nets) {
    /** What stands before the name of a pin in a setting that states the pin's constant. */
    public static final String TIED = "tied ";

    /** Copies the lists. */
    public Netlist {
        cells = List.copyOf(cells);
        ports = List.copyOf(ports);
        nets = List.copyOf(nets);
    }

    /**
     * A cell that stands nowhere yet.
     *
     * @param name hierarchical name
     * @param kind kind of cell
     * @param settings settings by name
     * @param atPad how it stands at a pad instead, when it can
     */
    public record LogicalCell(
            String name, String kind, Map<String, String> settings, Optional<AtPad> atPad) {
        /** Copies the settings. */
        public LogicalCell {
            settings = Map.copyOf(settings);
        }
    }

    /**
     * What a register becomes in the IO register site of a pad.
     *
     * @param kind its kind there
     * @param pins names of its pins there, by their names elsewhere
     */
    public record AtPad(String kind, Map<String, String> pins) {
        /** Copies the names. */
        public AtPad {
            pins = Map.copyOf(pins);
        }
    }

    /**
     * A port that has no pad yet.
     *
     * @param name its name
     * @param direction in or out
     */
    public record LogicalPort(String name, PortDirection direction) {}

    /**
     * A net that has no wires yet.
     *
     * @param name hierarchical name
     * @param driver what drives it
     * @param sinks what it feeds
     * @param clock whether it is a clock
     */
    public record LogicalNet(String name, Terminal driver, List<Terminal> sinks, boolean clock) {
        /** Copies the sinks. */
        public LogicalNet {
            sinks = List.copyOf(sinks);
        }
    }
}
