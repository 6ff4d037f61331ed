package padward.change;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import padward.design.Cell;
import padward.design.Net;
import padward.design.Port;
import padward.design.PortDirection;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.PinDirection;

/**
 * One change to a finished design, as a value. It names what it changes, so that it can be
 * reported, kept, and applied to another run of the same design. What it does is stated once, in
 * {@link #applyTo}: {@link Outcome} checks and applies it from there, and whatever else asks what
 * an edit touches asks the outcome.
 */
public sealed interface Edit {
    /** The change as a person would say it. */
    String toText();

    /** Whether it only takes away or sets, and so comes before all that is routed. */
    boolean makesRoom();

    /**
     * Writes what it does to a draft: names that must be there, what it removes, what it puts.
     * Whether wires and sites are free for what it puts is looked at by the draft.
     */
    void applyTo(Draft draft);

    /** The nets of the design that it routes over other wires. */
    default List<RouteNet> reroutes() {
        return List.of();
    }

    /** The edit handed to the method for its kind. */
    <T, X extends Exception> T accept(Visitor<T, X> visitor) throws X;

    /**
     * Something done for each kind of edit, such as writing it to a file. A new kind of edit does
     * not compile until every visitor has it.
     *
     * @param <T> what comes of it
     * @param <X> what may go wrong
     */
    interface Visitor<T, X extends Exception> {
        /** A port that is disconnected. */
        T disconnectPort(DisconnectPort edit) throws X;

        /** A net that is removed. */
        T removeNet(RemoveNet edit) throws X;

        /** A cell that is removed. */
        T removeCell(RemoveCell edit) throws X;

        /** A net that is routed over other wires. */
        T routeNet(RouteNet edit) throws X;

        /** A cell that goes to another site. */
        T relocateCell(RelocateCell edit) throws X;

        /** A setting of a cell. */
        T setCell(SetCell edit) throws X;

        /** A net that is brought out. */
        T breakOut(BreakOut edit) throws X;

        /** A pad's driver that gets another setting. */
        T setDriver(SetDriver edit) throws X;

        /** A pad's driver that is switched on for good. */
        T tieEnable(TieEnable edit) throws X;

        /** A cell that is placed on a free site. */
        T addCell(AddCell edit) throws X;

        /** A net that is added between cells. */
        T addNet(AddNet edit) throws X;

        /** A net that gets one more sink. */
        T addSink(AddSink edit) throws X;

        /** A pad that is read, and the net that it drives. */
        T addInput(AddInput edit) throws X;
    }

    /**
     * A port is disconnected from its pad: its net loses this one end and the wires that served it
     * alone; the rest of the net stays. A port that drives a net takes the net with it.
     *
     * @param port the port's name
     */
    record DisconnectPort(String port) implements Edit {
        @Override
        public boolean makesRoom() {
            return true;
        }

        @Override
        public void applyTo(Draft draft) {
            draft.port(port).ifPresent(draft::remove);
        }

        @Override
        public <T, X extends Exception> T accept(Visitor<T, X> visitor) throws X {
            return visitor.disconnectPort(this);
        }

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
        public boolean makesRoom() {
            return true;
        }

        @Override
        public void applyTo(Draft draft) {
            draft.net(net).ifPresent(draft::remove);
        }

        @Override
        public <T, X extends Exception> T accept(Visitor<T, X> visitor) throws X {
            return visitor.removeNet(this);
        }

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
        public boolean makesRoom() {
            return true;
        }

        @Override
        public void applyTo(Draft draft) {
            draft.cell(cell).ifPresent(draft::remove);
        }

        @Override
        public <T, X extends Exception> T accept(Visitor<T, X> visitor) throws X {
            return visitor.removeCell(this);
        }

        @Override
        public String toText() {
            return "remove cell " + cell;
        }
    }

    /**
     * A net's end at one pin of a cell goes to another that is alike, and at which no net ends.
     *
     * @param cell the cell's name
     * @param pin the pin at which the net ended
     * @param with the pin at which it ends now
     */
    record PinSwap(String cell, String pin, String with) {
        @Override
        public String toString() {
            return "to pin " + with + " of cell " + cell + " instead of " + pin;
        }
    }

    /**
     * A net is routed over other wires; its driver and its sinks stay, but for those that go to
     * pins that are alike. What a lookup table contains, where that is known, follows its pins.
     *
     * @param net the net's name
     * @param route the new tree, from the driver's vertex to every sink's
     * @param swaps its ends that go to other pins
     */
    record RouteNet(String net, RouteTree route, List<PinSwap> swaps) implements Edit {
        /** Copies the swaps. */
        public RouteNet {
            swaps = List.copyOf(swaps);
        }

        /** One that keeps all its ends. */
        public RouteNet(String net, RouteTree route) {
            this(net, route, List.of());
        }

        @Override
        public List<RouteNet> reroutes() {
            return List.of(this);
        }

        @Override
        public boolean makesRoom() {
            return false;
        }

        @Override
        public void applyTo(Draft draft) {
            for (PinSwap swap : swaps) {
                draft.net(net).ifPresent(n -> draft.swap(n, swap));
            }
            draft.net(net).ifPresent(n -> draft.put(n.withRoute(route)));
        }

        @Override
        public <T, X extends Exception> T accept(Visitor<T, X> visitor) throws X {
            return visitor.routeNet(this);
        }

        @Override
        public String toText() {
            String ends = swaps.stream().map(s -> ", " + s).collect(Collectors.joining());
            return "reroute net " + net + ends;
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
        public List<RouteNet> reroutes() {
            return nets;
        }

        @Override
        public boolean makesRoom() {
            return false;
        }

        @Override
        public void applyTo(Draft draft) {
            Optional<Cell> found = draft.cell(cell);
            Optional<Integer> to = draft.site(site);
            if (found.isEmpty() || to.isEmpty()) {
                return;
            }
            Cell old = found.get();
            List<String> listed = nets.stream().map(RouteNet::net).toList();
            for (Net there : draft.netsAt(old)) {
                if (!listed.contains(there.name())) {
                    draft.refuse(
                            "net " + there.name() + " ends at cell " + cell + " and stays behind");
                }
            }
            draft.put(old.withSite(to.get()));
            nets.forEach(n -> n.applyTo(draft));
        }

        @Override
        public <T, X extends Exception> T accept(Visitor<T, X> visitor) throws X {
            return visitor.relocateCell(this);
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
        public boolean makesRoom() {
            return true;
        }

        @Override
        public void applyTo(Draft draft) {
            draft.cell(cell)
                    .ifPresent(
                            old -> {
                                Map<String, String> settings = new HashMap<>(old.settings());
                                settings.put(setting, value);
                                draft.put(old.withSettings(settings));
                            });
        }

        @Override
        public <T, X extends Exception> T accept(Visitor<T, X> visitor) throws X {
            return visitor.setCell(this);
        }

        @Override
        public String toText() {
            String setTo = "set " + setting + " of cell " + cell + " to " + value;
            return Cell.letsThrough(setting, value)
                    ? "let signals pass through the site of cell "
                            + cell
                            + " over pins that the cell does not use ("
                            + setTo
                            + ")"
                    : setTo;
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
        public boolean makesRoom() {
            return false;
        }

        @Override
        public void applyTo(Draft draft) {
            Optional<Net> found = draft.net(net);
            Optional<Integer> to = draft.pad(pad);
            if (found.isEmpty() || to.isEmpty()) {
                return;
            }
            Pad there = draft.fabric().pads().get(to.get());
            draft.isForNewPort(port, to.get());
            if (!there.directions().canDrive()) {
                draft.refuse("pad " + pad + " is input-only");
            }
            if (!setting.isEmpty() && draft.fabric().info().findSetting(setting).isEmpty()) {
                draft.refuse("there is no driver setting " + setting);
            }
            if (!setting.isEmpty() && !there.use().driving().allows(setting)) {
                draft.refuse("pad " + pad + " does not have driver setting " + setting);
            }
            if (route.isEmpty() || route.get(route.size() - 1) != there.vertex()) {
                draft.refuse("the route of net " + net + " does not end at pad " + pad);
                return;
            }
            Optional<RouteTree> tree = draft.extended(found.get(), route);
            if (tree.isEmpty()) {
                return;
            }
            Port added = draft.addPort(port, PortDirection.OUT, to.get(), setting);
            List<Terminal> sinks = new ArrayList<>(found.get().sinks());
            sinks.add(new Terminal.PortEnd(added.id()));
            draft.put(found.get().withSinks(sinks).withRoute(tree.get()));
        }

        @Override
        public <T, X extends Exception> T accept(Visitor<T, X> visitor) throws X {
            return visitor.breakOut(this);
        }

        @Override
        public String toText() {
            return "bring out net " + net + " on pad " + pad + " as port " + port;
        }
    }

    /**
     * The driver of a port's pad gets another setting.
     *
     * @param port the port's name
     * @param setting name of the setting
     */
    record SetDriver(String port, String setting) implements Edit {
        @Override
        public boolean makesRoom() {
            return false;
        }

        @Override
        public void applyTo(Draft draft) {
            Optional<Port> found = draft.added(port);
            if (draft.fabric().info().findSetting(setting).isEmpty()) {
                draft.refuse("there is no driver setting " + setting);
            } else {
                found.map(p -> draft.fabric().pads().get(p.pad()))
                        .filter(p -> !p.use().driving().allows(setting))
                        .ifPresent(
                                p ->
                                        draft.refuse(
                                                "pad "
                                                        + p.name()
                                                        + " does not have driver setting "
                                                        + setting));
                found.ifPresent(p -> draft.put(p.withSetting(setting)));
            }
        }

        @Override
        public <T, X extends Exception> T accept(Visitor<T, X> visitor) throws X {
            return visitor.setDriver(this);
        }

        @Override
        public String toText() {
            return "set driver of port " + port + " to " + setting;
        }
    }

    /**
     * The enable of a port's pad is tied to the level that switches the driver on: nothing else may
     * be on its IO register site.
     *
     * @param port the port's name
     */
    record TieEnable(String port) implements Edit {
        @Override
        public boolean makesRoom() {
            return false;
        }

        @Override
        public void applyTo(Draft draft) {
            Optional<Port> found = draft.added(port);
            if (found.isEmpty()) {
                return;
            }
            Pad pad = draft.fabric().pads().get(found.get().pad());
            if (pad.enableSite() == Fabric.NOTHING) {
                draft.refuse("the driver of pad " + pad.name() + " has no enable");
            } else if (found.get().direction() == PortDirection.IN) {
                draft.refuse("port " + port + " does not use the driver of its pad");
            } else {
                draft.put(found.get().withEnableTied());
            }
        }

        @Override
        public <T, X extends Exception> T accept(Visitor<T, X> visitor) throws X {
            return visitor.tieEnable(this);
        }

        @Override
        public String toText() {
            return "tie enable of port " + port + " on";
        }
    }

    /**
     * A cell is placed on a free site. Nets come to it by edits of their own.
     *
     * @param cell name of the new cell
     * @param kind its kind, one that the site accepts
     * @param site name of the site
     * @param settings its settings, such as the contents of a lookup table
     */
    record AddCell(String cell, String kind, String site, Map<String, String> settings)
            implements Edit {
        /** Copies the settings. */
        public AddCell {
            settings = Map.copyOf(settings);
        }

        @Override
        public boolean makesRoom() {
            return false;
        }

        @Override
        public void applyTo(Draft draft) {
            Optional<Integer> to = draft.site(site);
            if (draft.isCell(cell)) {
                draft.refuse("cell " + cell + " already exists");
            } else {
                to.ifPresent(at -> draft.addCell(cell, kind, at, settings));
            }
        }

        @Override
        public <T, X extends Exception> T accept(Visitor<T, X> visitor) throws X {
            return visitor.addCell(this);
        }

        @Override
        public String toText() {
            return "add cell " + cell + " of kind " + kind + " on " + site;
        }
    }

    /**
     * An end of a net at a cell.
     *
     * @param cell the cell's name
     * @param pin name of the pin at its site
     */
    record CellEnd(String cell, String pin) {
        @Override
        public String toString() {
            return cell + "." + pin;
        }
    }

    /**
     * A net is added between pins of cells that no net ends at.
     *
     * @param net name of the new net
     * @param driver the pin that drives it
     * @param sinks the pins that it feeds
     * @param route its wires, from the driver's vertex to every sink's
     * @param clock whether it is a clock
     */
    record AddNet(String net, CellEnd driver, List<CellEnd> sinks, RouteTree route, boolean clock)
            implements Edit {
        /** Copies the sinks. */
        public AddNet {
            sinks = List.copyOf(sinks);
        }

        @Override
        public boolean makesRoom() {
            return false;
        }

        @Override
        public void applyTo(Draft draft) {
            if (draft.isNet(net)) {
                draft.refuse("net " + net + " already exists");
                return;
            }
            Optional<Terminal> from = draft.freeEnd(driver, PinDirection.OUT);
            Optional<List<Terminal>> to = draft.freeSinks(net, sinks);
            if (from.isPresent() && to.isPresent()) {
                draft.addNet(net, from.get(), to.get(), route, clock);
            }
        }

        @Override
        public <T, X extends Exception> T accept(Visitor<T, X> visitor) throws X {
            return visitor.addNet(this);
        }

        @Override
        public String toText() {
            return "add net " + net + " from " + driver;
        }
    }

    /**
     * A net gets one more sink, at the end of a branch; all that it had keeps every wire.
     *
     * @param net the net's name
     * @param sink the pin that it feeds too
     * @param route the vertices from the net's tree, its last vertex there included, to the pin
     */
    record AddSink(String net, CellEnd sink, List<Integer> route) implements Edit {
        /** Copies the route. */
        public AddSink {
            route = List.copyOf(route);
        }

        @Override
        public boolean makesRoom() {
            return false;
        }

        @Override
        public void applyTo(Draft draft) {
            Optional<Net> found = draft.net(net);
            Optional<Terminal> end = draft.freeEnd(sink, PinDirection.IN);
            if (found.isEmpty() || end.isEmpty()) {
                return;
            }
            if (route.isEmpty() || !route.get(route.size() - 1).equals(draft.vertexOf(end.get()))) {
                draft.refuse("the branch of net " + net + " does not end at " + sink);
                return;
            }
            List<Terminal> sinks = new ArrayList<>(found.get().sinks());
            sinks.add(end.get());
            draft.extended(found.get(), route)
                    .ifPresent(tree -> draft.put(found.get().withSinks(sinks).withRoute(tree)));
        }

        @Override
        public <T, X extends Exception> T accept(Visitor<T, X> visitor) throws X {
            return visitor.addSink(this);
        }

        @Override
        public String toText() {
            return "branch net " + net + " to " + sink;
        }
    }

    /**
     * A pad without a port is read: a new input port stands there and drives a new net.
     *
     * @param net name of the new net
     * @param port name of the new port
     * @param pad the pad's name
     * @param sinks the pins that the net feeds
     * @param route its wires, from the pad's vertex to every sink's
     */
    record AddInput(String net, String port, String pad, List<CellEnd> sinks, RouteTree route)
            implements Edit {
        /** Copies the sinks. */
        public AddInput {
            sinks = List.copyOf(sinks);
        }

        @Override
        public boolean makesRoom() {
            return false;
        }

        @Override
        public void applyTo(Draft draft) {
            Optional<Integer> from = draft.pad(pad);
            if (draft.isNet(net)) {
                draft.refuse("net " + net + " already exists");
                return;
            }
            Optional<List<Terminal>> to = draft.freeSinks(net, sinks);
            if (from.isEmpty() || to.isEmpty() || !draft.isForNewPort(port, from.get())) {
                return;
            }
            if (!draft.fabric().pads().get(from.get()).directions().canRead()) {
                draft.refuse("pad " + pad + " is output-only");
                return;
            }
            Port added = draft.addPort(port, PortDirection.IN, from.get(), "");
            draft.addNet(net, new Terminal.PortEnd(added.id()), to.get(), route, false);
        }

        @Override
        public <T, X extends Exception> T accept(Visitor<T, X> visitor) throws X {
            return visitor.addInput(this);
        }

        @Override
        public String toText() {
            return "read pad " + pad + " as port " + port + " and net " + net;
        }
    }
}
