package padward.format.design;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import padward.base.BadInput;
import padward.design.Cell;
import padward.design.Net;
import padward.design.Port;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.fabric.SiteView;
import padward.format.json.JsonIn;
import padward.format.json.Members;
import padward.format.json.Names;
import padward.format.json.Shape;
import padward.format.source.FileLimits;
import padward.format.source.Text;

/** Reads the nets of a design. One object reads one design. */
final class NetReader {
    private static final Shape NET =
            Shape.of("name!", "clock", "required_ps", "driver!", "sinks", "route");
    private static final Shape TERMINAL = Shape.of("cell", "pin", "port");
    private static final Shape SINK = Shape.of("cell", "pin", "port", "required_ps", "unrouted");

    private final Fabric fabric;
    private final DesignRules rules;
    private final List<Cell> cells;
    private final List<Port> ports;
    private final Names cellNames;
    private final Names portNames;
    private final Names netNames = new Names("net");
    private final List<String> names = new ArrayList<>();
    private final RouteChecker routes;

    /** The nets that end at a vertex, to see that no two do. */
    private final Int2IntOpenHashMap netEndingAt = new Int2IntOpenHashMap();

    /** A terminal with the vertex where it meets the fabric. */
    private record End(
            Terminal terminal, int vertex, String text, OptionalInt requiredPs, boolean unrouted) {}

    NetReader(
            Fabric fabric,
            DesignRules rules,
            List<Cell> cells,
            List<Port> ports,
            Names cellNames,
            Names portNames) {
        this.fabric = fabric;
        this.rules = rules;
        this.cells = cells;
        this.ports = ports;
        this.cellNames = cellNames;
        this.portNames = portNames;
        this.routes = new RouteChecker(fabric, cells);
        netEndingAt.defaultReturnValue(Fabric.NOTHING);
    }

    List<Net> readAll(JsonIn in) throws BadInput {
        List<Net> nets = new ArrayList<>();
        in.beginArray();
        while (in.more()) {
            nets.add(read(in, nets.size()));
        }
        in.endArray();
        return nets;
    }

    private Net read(JsonIn in, int id) throws BadInput {
        String name = "";
        boolean clock = false;
        OptionalInt required = OptionalInt.empty();
        End driver = null;
        List<End> sinks = List.of();
        List<IntArrayList> branches = List.of();
        Members member = in.object(NET);
        while (member.next()) {
            switch (member.name()) {
                case "name" -> name = netNames.readNew(in);
                case "clock" -> clock = in.flag();
                case "required_ps" ->
                        required = OptionalInt.of(in.integer(0, FileLimits.REQUIRED_PS));
                case "driver" -> driver = readEnd(in, true);
                case "sinks" -> sinks = in.list(each -> readEnd(each, false));
                default -> branches = in.list(this::readBranch);
            }
        }
        names.add(name);
        RouteTree tree = routes.check(in, "$.nets[" + id + "]", name, driver.vertex(), branches);
        checkEnd(in, "$.nets[" + id + "].driver", id, driver);
        checkSinks(in, id, sinks, branches.isEmpty() ? null : new IntOpenHashSet(allOf(branches)));
        List<Terminal> terminals = sinks.stream().map(End::terminal).toList();
        Map<Terminal, Integer> own = new HashMap<>();
        sinks.forEach(s -> s.requiredPs().ifPresent(ps -> own.put(s.terminal(), ps)));
        return new Net(id, name, driver.terminal(), terminals, tree, clock, required, own);
    }

    /** All vertices of a route: a sink may lie on any of them. */
    private static IntArrayList allOf(List<IntArrayList> branches) {
        IntArrayList all = new IntArrayList();
        branches.forEach(all::addAll);
        return all;
    }

    private void checkSinks(JsonIn in, int id, List<End> sinks, IntOpenHashSet route)
            throws BadInput {
        IntOpenHashSet seen = new IntOpenHashSet();
        for (int i = 0; i < sinks.size(); i++) {
            String place = "$.nets[" + id + "].sinks[" + i + "]";
            int vertex = sinks.get(i).vertex();
            if (!seen.add(vertex)) {
                throw in.faultAt(place, "each sink once", sinks.get(i).text() + " again");
            }
            checkEnd(in, place, id, sinks.get(i));
            boolean reached = route != null && route.contains(vertex);
            if (reached && sinks.get(i).unrouted()) {
                throw in.faultAt(
                        place + ".unrouted",
                        "false, or a route that does not reach " + sinks.get(i).text(),
                        "a route that does");
            }
            if (route != null && !reached && !sinks.get(i).unrouted()) {
                throw in.faultAt(
                        place,
                        "a sink that the route reaches",
                        sinks.get(i).text()
                                + ", whose "
                                + fabric.vertexName(vertex)
                                + " is not on the route");
            }
        }
    }

    /** Two nets at one pin or port would drive it against each other. */
    private void checkEnd(JsonIn in, String place, int id, End end) throws BadInput {
        int other = netEndingAt.putIfAbsent(end.vertex(), id);
        if (other != Fabric.NOTHING && other != id) {
            throw in.faultAt(
                    place,
                    "an end of one net",
                    end.text() + ", where net " + Text.quote(names.get(other)) + " ends already");
        }
    }

    private IntArrayList readBranch(JsonIn in) throws BadInput {
        IntArrayList branch = new IntArrayList();
        in.beginArray();
        while (in.more()) {
            branch.add(routes.readVertex(in));
        }
        in.endArray();
        return branch;
    }

    private End readEnd(JsonIn in, boolean drives) throws BadInput {
        int cell = Fabric.NOTHING;
        String pin = "";
        int port = Fabric.NOTHING;
        OptionalInt required = OptionalInt.empty();
        boolean unrouted = false;
        Members member = in.object(drives ? TERMINAL : SINK);
        while (member.next()) {
            switch (member.name()) {
                case "cell" -> cell = cellNames.readKnown(in);
                case "pin" -> pin = in.word();
                case "port" -> port = portNames.readKnown(in);
                case "unrouted" -> unrouted = in.flag();
                default -> required = OptionalInt.of(in.integer(0, FileLimits.REQUIRED_PS));
            }
        }
        boolean whole = member.has("cell") == member.has("pin");
        if (!whole || member.has("cell") == member.has("port")) {
            throw in.fault("either \"cell\" and \"pin\", or \"port\"", "another choice of these");
        }
        return port == Fabric.NOTHING
                ? pinEnd(in, cells.get(cell), pin, drives, required, unrouted)
                : portEnd(in, ports.get(port), drives, required, unrouted);
    }

    private End pinEnd(
            JsonIn in,
            Cell cell,
            String pin,
            boolean drives,
            OptionalInt required,
            boolean unrouted)
            throws BadInput {
        SiteView site = fabric.site(cell.site());
        in.require(in.place(), rules.checkPin(site, pin, drives));
        int vertex = site.findPin(pin);
        Terminal terminal = new Terminal.CellPin(cell.id(), pin);
        return new End(terminal, vertex, cell.name() + "." + pin, required, unrouted);
    }

    private End portEnd(
            JsonIn in, Port port, boolean drives, OptionalInt required, boolean unrouted)
            throws BadInput {
        in.require(in.place(), DesignRules.checkPort(port.name(), port.direction(), drives));
        return new End(
                new Terminal.PortEnd(port.id()),
                fabric.pads().get(port.pad()).vertex(),
                "port " + port.name(),
                required,
                unrouted);
    }
}
