package padward.format.design;

import static padward.format.form.Kinds.checkedName;
import static padward.format.form.Kinds.choice;
import static padward.format.form.Kinds.flag;
import static padward.format.form.Kinds.list;
import static padward.format.form.Kinds.named;
import static padward.format.form.Kinds.newName;
import static padward.format.form.Kinds.whole;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.Supplier;
import padward.base.BadInput;
import padward.base.PagedInts;
import padward.design.Cell;
import padward.design.Net;
import padward.design.NetLock;
import padward.design.Port;
import padward.design.PortDirection;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.format.form.Fields;
import padward.format.form.Form;
import padward.format.form.Schema;
import padward.format.json.JsonIn;
import padward.format.json.Names;
import padward.format.source.FileLimits;
import padward.format.source.Text;

/** The form of the nets of a design. One object serves one design. */
final class NetForm {
    private final DesignScope scope;
    private final Names netNames = new Names("net");
    private final List<String> names = new ArrayList<>();

    /** The nets that end at a vertex, to see that no two do. */
    private Optional<PagedInts> netEndingAt = Optional.empty();

    /** The nets that start at the pads of ports in both directions. */
    private final Int2IntOpenHashMap netStartingAt = new Int2IntOpenHashMap();

    /** A terminal with the vertex where it meets the fabric. */
    private record End(Terminal terminal, int vertex, OptionalInt requiredPs, boolean unrouted) {}

    NetForm(DesignScope scope) {
        this.scope = scope;
        netStartingAt.defaultReturnValue(Fabric.NOTHING);
    }

    Form<Net> form() {
        var net = new Fields<Net>();
        var name = net.needed("name", newName(netNames), Net::name).means("name of the net");
        var clock = net.optional("clock", flag(), false, Net::clock).means("whether it is a clock");
        var required =
                net.maybe("required_ps", whole(0, FileLimits.REQUIRED_PS), Net::requiredPs)
                        .means(
                                "latest arrival at its sinks that the design allows; otherwise unknown");
        var lock =
                net.optional(
                                "locked",
                                choice(
                                        new NetLock[] {NetLock.WIRES, NetLock.WHOLE},
                                        NetLock::label),
                                NetLock.NONE,
                                Net::lock)
                        .means(
                                "`wires` if its wires and ends are to stay, `whole` if no branch is"
                                        + " to be added either; otherwise it is not locked");
        var driver =
                net.needed("driver", end(true), n -> endOf(n.driver())).means("what drives it");
        var sinks =
                net.stated("sinks", list(end(false)), List.of(), this::sinksOf).means("its sinks");
        var route =
                net.stated(
                                "route",
                                RouteKind.in(scope),
                                Branches.NONE,
                                n -> RouteKind.branches(n.route()))
                        .means(
                                "its branches, each from a vertex that an earlier one has reached, the"
                                        + " first from the driver's");
        return net.makes(
                in -> {
                    int id = names.size();
                    names.add(name.get());
                    Branches branches = route.get();
                    RouteTree tree =
                            scope.routes().check(in, name.get(), driver.get().vertex(), branches);
                    checkEnd(in, Fabric.NOTHING, id, driver.get());
                    checkSinks(in, id, sinks.get(), branches);
                    return new Net(
                            id,
                            name.get(),
                            driver.get().terminal(),
                            terminals(sinks.get()),
                            tree,
                            clock.get(),
                            required.get(),
                            requiredAt(sinks.get()),
                            lock.get());
                });
    }

    private static List<Terminal> terminals(List<End> ends) {
        Terminal[] result = new Terminal[ends.size()];
        for (int i = 0; i < result.length; i++) {
            result[i] = ends.get(i).terminal();
        }
        return List.of(result);
    }

    private static Map<Terminal, Integer> requiredAt(List<End> ends) {
        Map<Terminal, Integer> result = new HashMap<>(0);
        for (End end : ends) {
            if (end.requiredPs().isPresent()) {
                result.put(end.terminal(), end.requiredPs().getAsInt());
            }
        }
        return result;
    }

    private Form<End> end(boolean drives) {
        var end = new Fields<End>();
        var cell =
                end.optional(
                                "cell",
                                named(scope.cellNames()::readKnown, c -> scope.cell(c).name()),
                                Fabric.NOTHING,
                                e ->
                                        e.terminal() instanceof Terminal.CellPin at
                                                ? at.cell()
                                                : Fabric.NOTHING)
                        .means("name of a cell, and");
        var pin =
                end.optional(
                                "pin",
                                checkedName(),
                                "",
                                e ->
                                        e.terminal() instanceof Terminal.CellPin at
                                                ? at.pin()
                                                : DesignFileRules.pinOf(
                                                        (Terminal.PortEnd) e.terminal()))
                        .means("name of a pin of its site; or");
        var port =
                end.optional(
                                "port",
                                named(scope.portNames()::readKnown, p -> scope.port(p).name()),
                                Fabric.NOTHING,
                                e ->
                                        e.terminal() instanceof Terminal.PortEnd at
                                                ? at.port()
                                                : Fabric.NOTHING)
                        .means(
                                "name of a port, and `pin` `enable` where the net switches the driver of"
                                        + " its pad, with no cell between");
        Supplier<OptionalInt> required =
                drives
                        ? OptionalInt::empty
                        : end.maybe(
                                                "required_ps",
                                                whole(0, FileLimits.REQUIRED_PS),
                                                End::requiredPs)
                                        .means(
                                                "latest arrival that the design allows there; otherwise its net's")
                                ::get;
        Supplier<Boolean> unrouted =
                drives
                        ? () -> false
                        : end.optional("unrouted", flag(), false, End::unrouted)
                                        .means("whether the net has a route that does not reach it")
                                ::get;
        end.require(Schema.oneOf(List.of(Schema.having(cell, pin), Schema.having(port))));
        return end.makes(
                in -> {
                    boolean whole = pin.isGiven() || !cell.isGiven();
                    if (!whole || cell.isGiven() == port.isGiven()) {
                        throw in.fault(
                                "either \"cell\" and \"pin\", or \"port\"",
                                "another choice of these");
                    }
                    if (port.isGiven() && pin.isGiven()) {
                        return enableEnd(
                                in,
                                scope.port(port.get()),
                                pin.get(),
                                drives,
                                required.get(),
                                unrouted.get());
                    }
                    return port.isGiven()
                            ? portEnd(in, port.get(), drives, required.get(), unrouted.get())
                            : pinEnd(
                                    in,
                                    scope.cell(cell.get()),
                                    pin.get(),
                                    drives,
                                    required.get(),
                                    unrouted.get());
                });
    }

    private End pinEnd(
            JsonIn in,
            Cell cell,
            String pin,
            boolean drives,
            OptionalInt required,
            boolean unrouted)
            throws BadInput {
        in.require(scope.rules().checkPin(cell.site(), pin, drives));
        Terminal terminal = new Terminal.CellPin(cell.id(), pin);
        return new End(terminal, scope.fabric().findPin(cell.site(), pin), required, unrouted);
    }

    private End portEnd(
            JsonIn in, int number, boolean drives, OptionalInt required, boolean unrouted)
            throws BadInput {
        Port port = scope.port(number);
        in.require(DesignFileRules.checkPort(port.name(), port.direction(), drives));
        return new End(
                new Terminal.PortEnd(port.id()),
                scope.fabric().pads().get(port.pad()).vertex(),
                required,
                unrouted);
    }

    private End enableEnd(
            JsonIn in,
            Port port,
            String pin,
            boolean drives,
            OptionalInt required,
            boolean unrouted)
            throws BadInput {
        if (!pin.equals(DesignFileRules.ENABLE)) {
            throw in.faultAt(
                    in.place() + ".pin",
                    Text.quote(DesignFileRules.ENABLE) + ", or none, next to \"port\"",
                    Text.quote(pin));
        }
        in.require(in.place(), scope.rules().checkEnable(port, drives));
        Terminal.PortEnd end = Terminal.PortEnd.enableOf(port.id());
        int vertex = end.vertexOn(scope.fabric(), port);
        return new End(end, vertex, required, unrouted);
    }

    /** An end as it is written. */
    private static End endOf(Terminal terminal) {
        return new End(terminal, Fabric.NOTHING, OptionalInt.empty(), false);
    }

    private List<End> sinksOf(Net net) {
        IntOpenHashSet reached = new IntOpenHashSet(net.route().toVertices());
        // A net without any route need not say of each sink that nothing reaches it.
        boolean routed = net.route().size() > 1;
        List<End> all = new ArrayList<>();
        for (Terminal sink : net.sinks()) {
            int vertex = scope.vertexOf(sink);
            Integer own = net.requiredAtPs().get(sink);
            OptionalInt required = own == null ? OptionalInt.empty() : OptionalInt.of(own);
            all.add(new End(sink, vertex, required, routed && !reached.contains(vertex)));
        }
        return all;
    }

    private void checkSinks(JsonIn in, int id, List<End> sinks, Branches branches) throws BadInput {
        boolean routed = !branches.isEmpty();
        IntOpenHashSet seen = new IntOpenHashSet(sinks.size());
        for (int i = 0; i < sinks.size(); i++) {
            End sink = sinks.get(i);
            if (!seen.add(sink.vertex())) {
                throw in.faultAt(
                        place(in, i), "each sink once", scope.textOf(sink.terminal()) + " again");
            }
            checkEnd(in, i, id, sink);
            boolean reached = routed && scope.routes().isOn(id, sink.vertex());
            if (reached && sink.unrouted()) {
                throw in.faultAt(
                        place(in, i) + ".unrouted",
                        "false, or a route that does not reach " + scope.textOf(sink.terminal()),
                        "a route that does");
            }
            if (routed && !reached && !sink.unrouted()) {
                throw in.faultAt(
                        place(in, i),
                        "a sink that the route reaches",
                        scope.textOf(sink.terminal())
                                + ", whose "
                                + scope.fabric().vertexName(sink.vertex())
                                + " is not on the route");
            }
        }
    }

    /** Where a sink of a net is, or its driver if it is none. Not made unless there is a fault. */
    private static String place(JsonIn in, int sink) {
        return in.place() + (sink == Fabric.NOTHING ? ".driver" : ".sinks[" + sink + "]");
    }

    private PagedInts netEndingAt() {
        if (netEndingAt.isEmpty()) {
            netEndingAt = Optional.of(new PagedInts(scope.fabric().vertexCount()));
        }
        return netEndingAt.get();
    }

    /** At a port in both directions, one net starts and another one ends. */
    private boolean isPortBothWays(End end) {
        return end.terminal() instanceof Terminal.PortEnd at
                && scope.port(at.port()).direction() == PortDirection.BOTH;
    }

    /** Two nets at one pin or port would drive it against each other. */
    private void checkEnd(JsonIn in, int sink, int id, End end) throws BadInput {
        int other =
                sink == Fabric.NOTHING && isPortBothWays(end)
                        ? netStartingAt.putIfAbsent(end.vertex(), id)
                        : netEndingAt().putIfAbsent(end.vertex(), id);
        if (other != Fabric.NOTHING && other != id) {
            throw in.faultAt(
                    place(in, sink),
                    "an end of one net",
                    scope.textOf(end.terminal())
                            + ", where net "
                            + Text.quote(names.get(other))
                            + " ends already");
        }
    }
}
