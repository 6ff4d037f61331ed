package padward.design.compact;

import java.io.IOException;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.NetLock;
import padward.design.Numbered;
import padward.design.Port;
import padward.design.PortDirection;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.fabric.PinDirection;
import padward.fabric.SitePin;
import padward.fabric.compact.CompactIn;
import padward.fabric.compact.CompactOut;
import padward.fabric.compact.Damaged;

/**
 * The nets of a design in a compact copy. An end is a pin by its place among those of its cell's
 * site, or a port. At a pin or pad one net ends, and a vertex has one net; but at the pad of a port
 * in both directions one may start as well, as the rules of designs say.
 */
final class NetParts {
    /** What an end begins with: these for ports, more for the pins of cells. */
    private static final int AT_PAD = 0;

    private static final int AT_ENABLE = 1;
    private static final int AT_PIN = 2;

    /** What a net has, as bits. */
    private static final int CLOCK = 1;

    private static final int REQUIRED = 2;
    private static final int OWN_REQUIRED = 4;
    private static final int LOCKED = 8;

    /** The name of the cell that drives it, which is most common. */
    private static final int NAME_OF_CELL = 16;

    private static final int ALL = CLOCK | REQUIRED | OWN_REQUIRED | LOCKED | NAME_OF_CELL;

    private final CompactIn in;
    private final Fabric fabric;
    private final List<Cell> cells;
    private final CellPins pins;
    private final List<Port> ports;
    private final int latestPs;
    private final RouteParts routes;

    /** Sites that have cells. */
    private final BitSet withCells;

    /** Vertices at which nets end. */
    private final BitSet ends;

    /** Pads of ports in both directions, and those of them at which a net starts. */
    private final BitSet bothWays = new BitSet();

    private final BitSet startsAtPad = new BitSet();
    private int next;

    NetParts(
            CompactIn in,
            Fabric fabric,
            List<Cell> cells,
            CellPins pins,
            List<Port> ports,
            int latestPs) {
        this.in = in;
        this.fabric = fabric;
        this.cells = cells;
        this.pins = pins;
        this.ports = ports;
        this.latestPs = latestPs;
        this.routes = new RouteParts(in, fabric);
        this.ends = new BitSet(fabric.vertexCount());
        this.withCells = new BitSet(fabric.siteCount());
        cells.forEach(cell -> withCells.set(cell.site()));
        for (Port port : ports) {
            if (port.direction() == PortDirection.BOTH) {
                bothWays.set(fabric.pads().get(port.pad()).vertex());
            }
        }
    }

    /** Writes nets. */
    static final class Writer {
        private final CompactOut out;
        private final Numbered<Cell> cells;
        private final CellPins pins;
        private final RouteParts.Writer routes;

        Writer(CompactOut out, Design design, CellPins pins) {
            this.out = out;
            this.cells = design.cells();
            this.pins = pins;
            this.routes = new RouteParts.Writer(out, design.fabric());
        }

        void write(Net net) throws IOException {
            boolean ofCell =
                    net.driverCell() != Fabric.NOTHING
                            && cells.get(net.driverCell()).name().equals(net.name());
            boolean own = !net.requiredAtPs().isEmpty();
            boolean locked = net.lock() != NetLock.NONE;
            out.smallNumber(
                    (net.clock() ? CLOCK : 0)
                            | (net.requiredPs().isPresent() ? REQUIRED : 0)
                            | (own ? OWN_REQUIRED : 0)
                            | (locked ? LOCKED : 0)
                            | (ofCell ? NAME_OF_CELL : 0));
            write(net.driver());
            if (!ofCell) {
                out.name(net.name());
            }
            if (net.requiredPs().isPresent()) {
                out.smallNumber(net.requiredPs().getAsInt());
            }
            if (locked) {
                out.constant(net.lock());
            }
            out.smallNumber(net.sinks().size());
            for (Terminal sink : net.sinks()) {
                write(sink);
                if (own) {
                    Integer required = net.requiredAtPs().get(sink);
                    out.flag(required != null);
                    if (required != null) {
                        out.smallNumber(required);
                    }
                }
            }
            routes.write(net.route());
        }

        private void write(Terminal end) throws IOException {
            if (end instanceof Terminal.CellPin at) {
                out.smallNumber(AT_PIN + pins.find(at.cell(), at.pin()));
                out.smallNumber(at.cell());
                return;
            }
            Terminal.PortEnd at = (Terminal.PortEnd) end;
            out.smallNumber(at.role() == Terminal.PortEnd.Role.PAD ? AT_PAD : AT_ENABLE);
            out.smallNumber(at.port());
        }
    }

    /** An end with the vertex where it meets the fabric. */
    private record End(Terminal terminal, int vertex) {}

    Net read() throws IOException {
        int has = in.smallNumber(ALL);
        End driver = readEnd(true);
        String name = (has & NAME_OF_CELL) == 0 ? in.name() : nameOfCell(driver.terminal());
        OptionalInt required =
                (has & REQUIRED) == 0 ? OptionalInt.empty() : OptionalInt.of(readTime());
        NetLock lock = (has & LOCKED) == 0 ? NetLock.NONE : in.constant(NetLock.class);
        Terminal[] sinks = new Terminal[in.smallCount(fabric.vertexCount())];
        Map<Terminal, Integer> own = (has & OWN_REQUIRED) == 0 ? Map.of() : new HashMap<>();
        for (int i = 0; i < sinks.length; i++) {
            sinks[i] = readEnd(false).terminal();
            if ((has & OWN_REQUIRED) != 0 && in.flag()) {
                own.put(sinks[i], readTime());
            }
        }
        RouteTree route = routes.read(driver.vertex(), bothWays.get(driver.vertex()));
        boolean clock = (has & CLOCK) != 0;
        return new Net(
                next++, name, driver.terminal(), List.of(sinks), route, clock, required, own, lock);
    }

    private String nameOfCell(Terminal driver) throws IOException {
        if (driver instanceof Terminal.CellPin at) {
            return cells.get(at.cell()).name();
        }
        throw new Damaged("the name of a cell that is none");
    }

    private int readTime() throws IOException {
        return in.smallNumber(latestPs);
    }

    private End readEnd(boolean drives) throws IOException {
        int sort = in.smallNumber(Integer.MAX_VALUE);
        End end =
                sort >= AT_PIN
                        ? readPin(sort - AT_PIN, drives)
                        : readPort(sort == AT_ENABLE, drives);
        boolean startsBeside = drives && bothWays.get(end.vertex());
        BitSet taken = startsBeside ? startsAtPad : ends;
        Damaged.unless(!taken.get(end.vertex()), "two ends at a pin or pad");
        taken.set(end.vertex());
        return end;
    }

    private End readPin(int pin, boolean drives) throws IOException {
        int cell = in.smallNumber(pins.cells() - 1);
        List<SitePin> all = pins.of(cell);
        Damaged.unless(pin < all.size(), "a pin that its site does not have");
        PinDirection needed = drives ? PinDirection.OUT : PinDirection.IN;
        Damaged.unless(all.get(pin).direction() == needed, "a pin of the other direction");
        return new End(new Terminal.CellPin(cell, all.get(pin).name()), pins.vertex(cell, pin));
    }

    private End readPort(boolean enable, boolean drives) throws IOException {
        Port port = ports.get(in.smallNumber(ports.size() - 1));
        PortDirection wrong = drives ? PortDirection.OUT : PortDirection.IN;
        Damaged.unless(port.direction() != wrong, "a port of the other direction");
        Terminal.PortEnd end =
                enable ? Terminal.PortEnd.enableOf(port.id()) : new Terminal.PortEnd(port.id());
        int vertex = end.vertexOn(fabric, port);
        boolean possible = vertex != Fabric.NOTHING && !(enable && (drives || port.enableTied()));
        Damaged.unless(possible, "an end at an enable where none can be");
        int site = enable ? fabric.pads().get(port.pad()).enableSite() : Fabric.NOTHING;
        Damaged.unless(
                !enable || !withCells.get(site), "an end at an enable whose site has a cell");
        return new End(end, vertex);
    }
}
