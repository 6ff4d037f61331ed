package padward.change;

import java.util.List;
import padward.design.RouteTree;

/**
 * One change to a finished design, as a value. It names what it changes, so that it can be told,
 * kept, and applied to another state of the same design.
 */
public sealed interface Edit {
    /** The change as a person would say it. */
    String toText();

    /**
     * A port is disconnected from its pad: its net loses this one end and the wires that served it
     * alone; the rest of the net stays. A port that drives a net takes the net with it.
     *
     * @param port the port's name
     */
    record DisconnectPort(String port) implements Edit {
        @Override
        public String toText() {
            return "disconnect port " + port;
        }
    }

    /**
     * A net gives back all its wires; its ends stay without a signal.
     *
     * @param net the net's name
     */
    record RemoveNet(String net) implements Edit {
        @Override
        public String toText() {
            return "remove net " + net;
        }
    }

    /**
     * A cell leaves its site. The nets that it drives go with it; nets that feed it lose the wires
     * that led to it alone.
     *
     * @param cell the cell's name
     */
    record RemoveCell(String cell) implements Edit {
        @Override
        public String toText() {
            return "remove cell " + cell;
        }
    }

    /**
     * A net is laid over other wires; its driver and its sinks stay.
     *
     * @param net the net's name
     * @param route the new tree, from the driver's vertex to every sink's
     */
    record RouteNet(String net, RouteTree route) implements Edit {
        @Override
        public String toText() {
            return "reroute net " + net;
        }
    }

    /**
     * A cell goes to another site, and its nets with it.
     *
     * @param cell the cell's name
     * @param site name of the new site
     * @param nets its nets on their new wires
     */
    record RelocateCell(String cell, String site, List<RouteNet> nets) implements Edit {
        /** Copies the nets. */
        public RelocateCell {
            nets = List.copyOf(nets);
        }

        @Override
        public String toText() {
            return "relocate cell " + cell + " to " + site;
        }
    }

    /**
     * A cell's setting changes.
     *
     * @param cell the cell's name
     * @param setting name of the setting
     * @param value its new value
     */
    record SetCell(String cell, String setting, String value) implements Edit {
        @Override
        public String toText() {
            return "set " + setting + " = " + value + " at cell " + cell;
        }
    }

    /**
     * A net is brought out to a pad: a new output port stands there, and the net feeds it too.
     *
     * @param net the net's name
     * @param port name of the new port
     * @param pad the pad's name; no port may be on it
     * @param setting name of the pad driver's setting, {@code ""} for the pad's default
     * @param route the vertices from the net's tree, its last vertex there included, to the pad
     */
    record BreakOut(String net, String port, String pad, String setting, List<Integer> route)
            implements Edit {
        /** Copies the route. */
        public BreakOut {
            route = List.copyOf(route);
        }

        @Override
        public String toText() {
            return "bring out net " + net + " on pad " + pad + " as port " + port;
        }
    }
}
