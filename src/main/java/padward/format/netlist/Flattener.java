package padward.format.netlist;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import padward.base.BadInput;
import padward.design.PortDirection;
import padward.fabric.FabricLimits;
import padward.format.source.FileLimits;
import padward.format.source.Nearest;
import padward.format.source.Text;

/**
 * Flattens a netlist: instances of modules are replaced by their contents, with {@code /} between
 * the levels of a name. Bits that are joined become one net by union and find (Tarjan, "Efficiency
 * of a good but not linear set union algorithm", J. ACM 22(2), 1975); it has the name highest in
 * the hierarchy, and of those the first.
 */
final class Flattener {
    private static final int DEEPEST = 200;

    /** A few modules that each contain the next one twice make any number of cells. */
    private static final long MOST_NETS = 10_000_000;

    private final Library library;
    private final Set<String> leafTypes;
    private final IntArrayList parent = new IntArrayList();
    private final List<String> names = new ArrayList<>();
    private final IntArrayList depths = new IntArrayList();
    private final List<FlatNetlist.Leaf> leaves = new ArrayList<>();
    private final Set<String> leafNames = new HashSet<>();
    private final Deque<String> open = new ArrayDeque<>();

    private Flattener(Library library, Set<String> leafTypes) {
        this.library = library;
        this.leafTypes = leafTypes;
        newNet("0", 0);
        newNet("1", 0);
    }

    /**
     * Flattens the top module.
     *
     * @param leafTypes types that stay as they are, even where the file describes them
     */
    static FlatNetlist flatten(Library library, String top, Set<String> leafTypes) throws BadInput {
        return new Flattener(library, leafTypes).run(library.top(top));
    }

    private FlatNetlist run(NetlistModule top) throws BadInput {
        checkSize(top);
        Map<String, int[]> ids = expand(top, "", Map.of());
        List<FlatNetlist.FlatPort> ports = new ArrayList<>();
        for (Map.Entry<String, PortDirection> port : top.ports.entrySet()) {
            Range range = top.nets.get(port.getKey());
            int[] nets = ids.get(port.getKey());
            for (int place = 0; place < nets.length; place++) {
                ports.add(
                        new FlatNetlist.FlatPort(
                                bitName(port.getKey(), range, place),
                                port.getValue(),
                                find(nets[place])));
            }
        }
        List<FlatNetlist.Leaf> flat = new ArrayList<>();
        for (FlatNetlist.Leaf leaf : leaves) {
            leaf.pins().values().forEach(this::toRoots);
            flat.add(leaf);
        }
        return new FlatNetlist(library.file(), top.name, flat, ports, names);
    }

    /**
     * What a module makes, with what its instances make.
     *
     * @param parts nets, cells and instances
     * @param pinBits bits at the pins of cells and in assignments
     */
    private record Size(long parts, long pinBits) {
        static final Size NONE = new Size(0, 0);

        Size plus(long moreParts, long moreBits) {
            long most = Long.MAX_VALUE / 4;
            return new Size(Math.min(parts + moreParts, most), Math.min(pinBits + moreBits, most));
        }
    }

    private void checkSize(NetlistModule top) throws BadInput {
        Size size = size(top, 0, new HashMap<>());
        String expected = "";
        if (size.parts() > MOST_NETS) {
            expected = "at most " + MOST_NETS + " nets, cells and modules after flattening";
        } else if (size.pinBits() > FileLimits.FLAT_PIN_BITS) {
            expected =
                    "at most "
                            + FileLimits.FLAT_PIN_BITS
                            + " bits at pins and in assignments after flattening";
        }
        if (!expected.isEmpty()) {
            throw new BadInput(library.file(), "module " + top.name, expected, "more");
        }
    }

    /** How much a module makes. O(instances). */
    private Size size(NetlistModule module, int depth, Map<String, Size> known) {
        Size before = known.get(module.name);
        if (before != null || depth > DEEPEST) {
            return before == null ? Size.NONE : before;
        }
        // what is too deep or contains itself is reported when expanded
        known.put(module.name, Size.NONE);
        long nets = module.nets.values().stream().mapToLong(Range::width).sum();
        Size size = new Size(nets, module.joined.stream().mapToLong(j -> j.left().size()).sum());
        for (NetlistModule.Instance instance : module.instances) {
            if (leafTypes.contains(instance.type()) || module(instance.type()) == null) {
                size = size.plus(1, instance.pins().values().stream().mapToLong(List::size).sum());
            } else {
                Size made = size(module(instance.type()), depth + 1, known);
                size = size.plus(1, 0).plus(made.parts(), made.pinBits());
            }
        }
        known.put(module.name, size);
        return size;
    }

    private void toRoots(int[] nets) {
        for (int i = 0; i < nets.length; i++) {
            nets[i] = find(nets[i]);
        }
    }

    private static String bitName(String net, Range range, int place) {
        return range.vector() ? net + "[" + range.index(place) + "]" : net;
    }

    private int newNet(String name, int depth) {
        parent.add(parent.size());
        names.add(name);
        depths.add(depth);
        return parent.size() - 1;
    }

    /**
     * Replaces an instance by its module's contents.
     *
     * @param bound nets of its ports, rightmost bit first
     * @return the nets of all its nets, rightmost bit first
     */
    private Map<String, int[]> expand(NetlistModule module, String prefix, Map<String, int[]> bound)
            throws BadInput {
        if (open.contains(module.name) || open.size() > DEEPEST) {
            throw new BadInput(
                    library.file(),
                    "module " + module.name,
                    "modules that do not contain themselves, at most " + DEEPEST + " levels",
                    String.join(" in ", open));
        }
        open.push(module.name);
        Map<String, int[]> ids = new HashMap<>();
        for (Map.Entry<String, Range> net : module.nets.entrySet()) {
            int[] known = bound.get(net.getKey());
            int[] own = new int[net.getValue().width()];
            for (int place = 0; place < own.length; place++) {
                String name = prefix + bitName(net.getKey(), net.getValue(), place);
                own[place] = newNet(name, open.size());
                if (known != null && place < known.length) {
                    join(own[place], known[place]);
                }
            }
            ids.put(net.getKey(), own);
        }
        for (NetlistModule.Joined pair : module.joined) {
            for (int i = 0; i < pair.left().size(); i++) {
                join(net(module, ids, pair.left().get(i)), net(module, ids, pair.right().get(i)));
            }
        }
        for (NetlistModule.Instance instance : module.instances) {
            place(module, prefix, ids, instance);
        }
        open.pop();
        return ids;
    }

    private int net(NetlistModule module, Map<String, int[]> ids, Bit bit) {
        if (bit instanceof Bit.OfNet of) {
            return ids.get(of.net())[module.nets.get(of.net()).place(of.index())];
        }
        char value = ((Bit.Constant) bit).value();
        return switch (value) {
            case '0' -> FlatNetlist.ZERO;
            case '1' -> FlatNetlist.ONE;
            default -> newNet("open", DEEPEST);
        };
    }

    private void place(
            NetlistModule module,
            String prefix,
            Map<String, int[]> ids,
            NetlistModule.Instance instance)
            throws BadInput {
        NetlistModule made = leafTypes.contains(instance.type()) ? null : module(instance.type());
        Map<String, int[]> pins = new LinkedHashMap<>();
        for (Map.Entry<String, List<Bit>> pin : instance.pins().entrySet()) {
            int[] nets = new int[pin.getValue().size()];
            for (int i = 0; i < nets.length; i++) {
                nets[i] = net(module, ids, pin.getValue().get(i));
            }
            if (nets.length > 0) {
                pins.put(pin.getKey(), nets);
            }
        }
        if (made == null) {
            checkName(prefix + instance.name(), instance.place());
            leaves.add(
                    new FlatNetlist.Leaf(
                            prefix + instance.name(),
                            instance.type(),
                            pins,
                            instance.parameters(),
                            instance.place()));
            return;
        }
        Map<String, int[]> bound = new HashMap<>();
        for (Map.Entry<String, int[]> pin : pins.entrySet()) {
            String port = portOf(made, instance, pin.getKey());
            bound.put(port, reversed(made, instance, port, pin.getValue()));
        }
        expand(made, prefix + instance.name() + "/", bound);
    }

    /** Users ask by name, so each cell must have its own. */
    private void checkName(String name, String place) throws BadInput {
        boolean isLong = name.length() > FabricLimits.NAME_LENGTH;
        if (isLong || !leafNames.add(name)) {
            throw new BadInput(
                    library.file(),
                    place,
                    isLong
                            ? "names of at most " + FabricLimits.NAME_LENGTH + " characters"
                            : "a name that only one instance has",
                    Text.quote(name) + (isLong ? "" : " again"));
        }
    }

    private NetlistModule module(String type) {
        return library.modules().get(type);
    }

    private String portOf(NetlistModule made, NetlistModule.Instance instance, String pin)
            throws BadInput {
        List<String> ports = List.copyOf(made.ports.keySet());
        if (pin.startsWith("#")) {
            int index = Integer.parseInt(pin.substring(1));
            if (index < ports.size()) {
                return ports.get(index);
            }
        } else if (made.ports.containsKey(pin)) {
            return pin;
        }
        throw new BadInput(
                library.file(),
                instance.place(),
                "a port of module " + made.name,
                pin.startsWith("#")
                        ? "more connections than it has ports"
                        : Nearest.describe(pin, ports.stream()));
    }

    /** Rightmost first; as wide as the port, as other widths are most often mistakes. */
    private int[] reversed(
            NetlistModule made, NetlistModule.Instance instance, String port, int[] nets)
            throws BadInput {
        int width = made.nets.get(port).width();
        if (nets.length != width) {
            throw new BadInput(
                    library.file(),
                    instance.place(),
                    width + " bits at port " + Text.quote(port) + " of module " + made.name,
                    "" + nets.length);
        }
        int[] result = new int[width];
        for (int i = 0; i < width; i++) {
            result[i] = nets[width - 1 - i];
        }
        return result;
    }

    private int find(int net) {
        int root = net;
        while (parent.getInt(root) != root) {
            root = parent.getInt(root);
        }
        for (int at = net; at != root; ) {
            int next = parent.getInt(at);
            parent.set(at, root);
            at = next;
        }
        return root;
    }

    /** Joins two nets; constants and names higher in the hierarchy win. */
    private void join(int one, int other) throws BadInput {
        int a = find(one);
        int b = find(other);
        if (a != b && a <= FlatNetlist.ONE && b <= FlatNetlist.ONE) {
            throw new BadInput(
                    library.file(), "module " + open.peek(), "no net that is both 0 and 1", "one");
        }
        boolean first =
                a <= FlatNetlist.ONE
                        || (b > FlatNetlist.ONE
                                && (depths.getInt(a) < depths.getInt(b)
                                        || (depths.getInt(a) == depths.getInt(b) && a < b)));
        if (first) {
            parent.set(b, a);
        } else {
            parent.set(a, b);
        }
    }
}
