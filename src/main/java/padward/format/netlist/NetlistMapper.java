package padward.format.netlist;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.Int2ObjectLinkedOpenHashMap;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import padward.base.BadInput;
import padward.design.Netlist;
import padward.design.PortDirection;
import padward.design.Terminal;
import padward.fabric.PinDirection;
import padward.format.source.Nearest;
import padward.format.source.Text;

/**
 * Turns the instances of a flat netlist into cells of a fabric's kinds. One object maps one
 * netlist.
 */
final class NetlistMapper {
    private final FlatNetlist flat;
    private final CellMapping mapping;
    private final KindPins kindPins;
    private final Int2IntOpenHashMap joined = new Int2IntOpenHashMap();
    private final List<Netlist.LogicalCell> cells = new ArrayList<>();
    private final List<Netlist.LogicalPort> ports = new ArrayList<>();
    private final Int2ObjectLinkedOpenHashMap<Ends> ends = new Int2ObjectLinkedOpenHashMap<>();
    private final List<String> notes = new ArrayList<>();
    private final Int2IntOpenHashMap portByNet = new Int2IntOpenHashMap();
    private final Set<Integer> driven = new HashSet<>();
    private int absorbed;

    /** A net that is still growing. */
    private static final class Ends {
        private final List<Terminal> drivers = new ArrayList<>();
        private final List<String> driverTexts = new ArrayList<>();
        private final List<Terminal> sinks = new ArrayList<>();
        private boolean clock;
    }

    NetlistMapper(FlatNetlist flat, CellMapping mapping, KindPins kindPins) {
        this.flat = flat;
        this.mapping = mapping;
        this.kindPins = kindPins;
        portByNet.defaultReturnValue(-1);
    }

    NetlistReader.Mapped run() throws BadInput {
        checkTypes();
        for (FlatNetlist.Leaf leaf : flat.leaves()) {
            if (!(mapping.types().get(leaf.type()) instanceof CellMapping.OfCell)) {
                absorb(leaf);
            }
        }
        for (FlatNetlist.FlatPort port : flat.ports()) {
            addPort(port);
        }
        for (FlatNetlist.Leaf leaf : flat.leaves()) {
            if (mapping.types().get(leaf.type()) instanceof CellMapping.AtPort at) {
                addDriver(leaf, at);
            }
        }
        requireDrivers();
        for (FlatNetlist.Leaf leaf : flat.leaves()) {
            if (mapping.types().get(leaf.type()) instanceof CellMapping.OfCell cell) {
                addCell(leaf, cell);
            }
        }
        if (absorbed > 0) {
            notes.add(absorbed + " instances are plain connections or constants and need no site");
        }
        List<Netlist.LogicalNet> nets = nets();
        return new NetlistReader.Mapped(new Netlist(flat.name(), cells, ports, nets), notes);
    }

    /** Reports all types that the mapping lacks, in one message. */
    private void checkTypes() throws BadInput {
        Map<String, Integer> unknown = new TreeMap<>();
        String place = "";
        for (FlatNetlist.Leaf leaf : flat.leaves()) {
            if (!mapping.types().containsKey(leaf.type())) {
                place = unknown.isEmpty() ? leaf.place() : place;
                unknown.merge(leaf.type(), 1, Integer::sum);
            }
        }
        if (!unknown.isEmpty()) {
            List<String> types = new ArrayList<>();
            unknown.forEach((type, count) -> types.add(Text.quote(type) + " (" + count + "×)"));
            throw new BadInput(
                    flat.file(),
                    place,
                    "types that the mapping or the file describes",
                    String.join(", ", types));
        }
        for (Map.Entry<String, CellMapping.Type> type : mapping.types().entrySet()) {
            if (type.getValue() instanceof CellMapping.OfCell cell) {
                check("type " + type.getKey(), cell.kind(), cell.pins());
                if (cell.atPad().isPresent()) {
                    Netlist.AtPad there = cell.atPad().get();
                    check("type " + type.getKey() + ", atPad", there.kind(), there.pins());
                }
            }
        }
    }

    private void check(String place, String kind, Map<String, String> pins) throws BadInput {
        checkKind(place, kind);
        Set<String> met = new HashSet<>();
        for (String pin : pins.values()) {
            checkPin(place, kind, pin);
            if (!met.add(pin)) {
                throw new BadInput(
                        "mapping " + mapping.name(),
                        place,
                        "each pin of the site once",
                        "a second " + Text.quote(pin));
            }
        }
    }

    /** A pin of a register must exist, too, when the register is in a pad's site. */
    private void checkAtPad(FlatNetlist.Leaf leaf, Netlist.AtPad there, String kind, String own)
            throws BadInput {
        String pin = there.pins().getOrDefault(own, own);
        if (!kindPins.find(there.kind(), pin).equals(kindPins.find(kind, own))) {
            throw new BadInput(
                    "mapping " + mapping.name(),
                    "type " + leaf.type() + ", atPad",
                    "the pin that is " + Text.quote(own) + " there",
                    "none");
        }
    }

    private void checkKind(String place, String kind) throws BadInput {
        if (!kindPins.has(kind)) {
            throw new BadInput(
                    "mapping " + mapping.name(),
                    place,
                    "a kind of cell that some site of the fabric accepts",
                    Nearest.describe(kind, kindPins.kinds()));
        }
    }

    /** A pin of a site, or the name of a vector of pins. */
    private void checkPin(String place, String kind, String pin) throws BadInput {
        boolean vector = kindPins.pins(kind).anyMatch(p -> p.startsWith(pin + "["));
        if (kindPins.find(kind, pin).isEmpty() && !vector) {
            throw new BadInput(
                    "mapping " + mapping.name(),
                    place,
                    "a pin of the sites that accept " + kind,
                    Nearest.describe(pin, kindPins.pins(kind)));
        }
    }

    private void absorb(FlatNetlist.Leaf leaf) throws BadInput {
        absorbed++;
        CellMapping.Type type = mapping.types().get(leaf.type());
        if (type instanceof CellMapping.Joins joins) {
            int[] one = leaf.pins().getOrDefault(joins.from(), new int[0]);
            int[] other = leaf.pins().getOrDefault(joins.to(), new int[0]);
            for (int i = 0; i < Math.min(one.length, other.length); i++) {
                join(leaf, one[i], other[i]);
            }
        } else if (type instanceof CellMapping.Constant constant) {
            for (int net : leaf.pins().getOrDefault(constant.pin(), new int[0])) {
                join(leaf, constant.value(), net);
            }
        } else if (type instanceof CellMapping.AtPort at && leaf.pins().containsKey(at.in())) {
            join(leaf, onlyNet(leaf, at.pad()), onlyNet(leaf, at.in()));
        }
    }

    private void join(FlatNetlist.Leaf leaf, int one, int other) throws BadInput {
        int a = root(one);
        int b = root(other);
        if (a != b && a <= FlatNetlist.ONE && b <= FlatNetlist.ONE) {
            throw new BadInput(
                    flat.file(), leaf.place(), "no net that is both 0 and 1", leaf.name());
        }
        if (a != b) {
            boolean first = rank(a) < rank(b);
            joined.put(first ? b : a, first ? a : b);
        }
    }

    /**
     * Of joined nets, the constant counts, then the net highest in the hierarchy, then the first.
     */
    private long rank(int net) {
        if (net <= FlatNetlist.ONE) {
            return -1;
        }
        long level = flat.names().get(net).chars().filter(c -> c == '/').count();
        return level << Integer.SIZE | net;
    }

    private int root(int net) {
        int at = net;
        while (joined.containsKey(at)) {
            at = joined.get(at);
        }
        return at;
    }

    private Ends ends(int net) {
        return ends.computeIfAbsent(root(net), n -> new Ends());
    }

    private void addPort(FlatNetlist.FlatPort port) {
        Terminal end = new Terminal.PortEnd(ports.size());
        ports.add(new Netlist.LogicalPort(port.name(), port.direction()));
        portByNet.putIfAbsent(root(port.net()), ports.size() - 1);
        if (port.direction() != PortDirection.OUT) {
            ends(port.net()).drivers.add(end);
            ends(port.net()).driverTexts.add("port " + port.name());
        } else {
            ends(port.net()).sinks.add(end);
        }
    }

    /** The driver of a pad: what it is given leaves by the port, as long as it is enabled. */
    private void addDriver(FlatNetlist.Leaf leaf, CellMapping.AtPort at) throws BadInput {
        int net = root(onlyNet(leaf, at.pad()));
        int port = portByNet.get(net);
        if (port < 0 || ports.get(port).direction() != PortDirection.BOTH) {
            throw new BadInput(
                    flat.file(),
                    leaf.place(),
                    "pin " + at.pad() + " at a port of direction inout",
                    "net " + flat.names().get(net));
        }
        if (!driven.add(port)) {
            throw new BadInput(
                    flat.file(),
                    leaf.place(),
                    "one driver for port " + Text.quote(ports.get(port).name()),
                    "a second one, " + leaf.name());
        }
        ends(onlyNet(leaf, at.out())).sinks.add(new Terminal.PortEnd(port));
        ends(onlyNet(leaf, at.enable())).sinks.add(Terminal.PortEnd.enableOf(port));
    }

    private int onlyNet(FlatNetlist.Leaf leaf, String pin) throws BadInput {
        int[] nets = leaf.pins().getOrDefault(pin, new int[0]);
        if (nets.length != 1) {
            throw new BadInput(
                    flat.file(),
                    leaf.place(),
                    "one bit at pin " + pin + ", which the mapping names",
                    nets.length == 0 ? "none" : nets.length + " of them");
        }
        return nets[0];
    }

    /** Each port in both directions must have a driver that can be switched off. */
    private void requireDrivers() throws BadInput {
        for (int port = 0; port < ports.size(); port++) {
            if (ports.get(port).direction() == PortDirection.BOTH && !driven.contains(port)) {
                throw new BadInput(
                        flat.file(),
                        "module " + flat.name(),
                        "at port "
                                + Text.quote(ports.get(port).name())
                                + " of direction inout a cell whose type the mapping describes"
                                + " with \"atPort\"",
                        "none");
            }
        }
        if (!driven.isEmpty()) {
            notes.add(
                    driven.size()
                            + (driven.size() == 1 ? " port" : " ports")
                            + " of direction inout: the fabric states whether 1 or 0 switches the"
                            + " driver on; the netlist is not inverted to fit");
        }
    }

    private void addCell(FlatNetlist.Leaf leaf, CellMapping.OfCell type) throws BadInput {
        Map<String, String> settings = new LinkedHashMap<>(type.settings());
        leaf.parameters().forEach((k, v) -> settings.put(type.parameters().getOrDefault(k, k), v));
        int number = cells.size();
        for (Map.Entry<String, int[]> pin : leaf.pins().entrySet()) {
            int[] nets = pin.getValue();
            for (int i = 0; i < nets.length; i++) {
                int index = nets.length - 1 - i;
                String own = sitePin(leaf, type, pin.getKey(), nets.length == 1 ? -1 : index);
                int net = root(nets[i]);
                if (type.atPad().isPresent()) {
                    checkAtPad(leaf, type.atPad().get(), type.kind(), own);
                }
                boolean drives = kindPins.find(type.kind(), own).orElseThrow() == PinDirection.OUT;
                if (drives) {
                    ends(net).drivers.add(new Terminal.CellPin(number, own));
                    ends(net).driverTexts.add(leaf.name() + "." + pin.getKey());
                } else if (net <= FlatNetlist.ONE) {
                    settings.put(Netlist.TIED + own, String.valueOf(net));
                } else {
                    ends(net).sinks.add(new Terminal.CellPin(number, own));
                    ends(net).clock |= type.clocks().contains(pin.getKey());
                }
            }
        }
        cells.add(new Netlist.LogicalCell(leaf.name(), type.kind(), settings, type.atPad()));
    }

    /**
     * The pin of the site for a pin of the netlist: as the mapping names it, or bit by bit where it
     * names the vector only.
     *
     * @param index bit of a vector, -1 for a pin of one bit
     */
    private String sitePin(FlatNetlist.Leaf leaf, CellMapping.OfCell type, String pin, int index)
            throws BadInput {
        String bit = index < 0 ? pin : pin + "[" + index + "]";
        String own = type.pins().get(bit);
        if (own == null && index >= 0 && type.pins().containsKey(pin)) {
            own = type.pins().get(pin) + "[" + index + "]";
        } else if (own == null && index < 0) {
            own = type.pins().get(pin + "[0]");
        }
        if (own != null && kindPins.find(type.kind(), own).isEmpty()) {
            String first = own + "[0]";
            own = index < 0 && kindPins.find(type.kind(), first).isPresent() ? first : null;
        }
        if (own == null) {
            throw new BadInput(
                    flat.file(),
                    leaf.place(),
                    "a pin that the mapping lists for type " + leaf.type(),
                    pin.startsWith("#")
                            ? "pins by order, which is possible only for modules of the file"
                            : Nearest.describe(bit, type.pins().keySet().stream()));
        }
        return own;
    }

    private List<Netlist.LogicalNet> nets() throws BadInput {
        List<Netlist.LogicalNet> nets = new ArrayList<>();
        Set<String> names = new HashSet<>();
        int undriven = 0;
        for (var entry : ends.int2ObjectEntrySet()) {
            Ends net = entry.getValue();
            String name = flat.names().get(entry.getIntKey());
            if (entry.getIntKey() <= FlatNetlist.ONE) {
                tellConstant(name, net);
            } else if (net.drivers.size() > 1) {
                throw new BadInput(
                        flat.file(),
                        "net " + name,
                        "one driver",
                        String.join(" and ", net.driverTexts));
            } else if (net.drivers.isEmpty()) {
                undriven += net.sinks.size();
            } else if (!names.add(name)) {
                throw new BadInput(
                        flat.file(),
                        "net " + name,
                        "a hierarchical name that only one net has",
                        "a second of them");
            } else {
                nets.add(new Netlist.LogicalNet(name, net.drivers.get(0), net.sinks, net.clock));
            }
        }
        if (undriven > 0) {
            notes.add(undriven + " inputs are on nets that nothing drives and stay unconnected");
        }
        return nets;
    }

    private void tellConstant(String value, Ends net) throws BadInput {
        if (!net.drivers.isEmpty()) {
            throw new BadInput(
                    flat.file(),
                    "constant " + value,
                    "no other driver",
                    String.join(" and ", net.driverTexts));
        }
        for (Terminal sink : net.sinks) {
            Terminal.PortEnd end = (Terminal.PortEnd) sink;
            String name = ports.get(end.port()).name();
            notes.add(
                    end.role() == Terminal.PortEnd.Role.PAD
                            ? "port " + name + " is constant " + value + ", so it has no net"
                            : "the enable of port "
                                    + name
                                    + " is constant "
                                    + value
                                    + ", so no net switches its driver");
        }
    }
}
