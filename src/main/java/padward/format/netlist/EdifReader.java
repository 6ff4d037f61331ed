package padward.format.netlist;

import java.io.IOException;
import java.io.Reader;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.PortDirection;
import padward.fabric.FabricLimits;
import padward.format.source.IoFaults;
import padward.format.source.Nearest;
import padward.format.source.Source;
import padward.format.source.Text;
import padward.format.source.TextSource;

/**
 * Reads netlists in EDIF 2 0 0 (ANSI/EIA-548): libraries of cells with a view of type {@code
 * NETLIST}, ports, arrays of ports, instances, nets. A renamed object has the name that people gave
 * it. Case does not matter in identifiers and keywords, as in the standard.
 */
final class EdifReader {
    private final Source source;
    private final Map<String, NetlistModule> modules = new LinkedHashMap<>();

    /** Ports of all cells by identifier, which references use; the value is the given name. */
    private final Map<String, Map<String, String>> portNames = new LinkedHashMap<>();

    private final Map<String, String> cellNames = new LinkedHashMap<>();
    private final Map<String, Map<String, Range>> portRanges = new LinkedHashMap<>();
    private final BitCount count = new BitCount();

    private EdifReader(Source source) {
        this.source = source;
    }

    static Library read(Source source, Progress progress) throws BadInput {
        try (Reader text = TextSource.open(source, progress)) {
            Bracket whole = new BracketReader(source, text).readAll();
            return new EdifReader(source).run(whole);
        } catch (IOException e) {
            throw IoFaults.describe(source, e);
        }
    }

    private BadInput fault(Bracket at, String expected, String found) {
        return new BadInput(source.label(), "line " + at.line(), expected, found);
    }

    private Library run(Bracket edif) throws BadInput {
        if (!edif.is("edif")) {
            throw fault(edif, "\"(edif\"", Text.quote(edif.word()));
        }
        List<Bracket> bodies = new ArrayList<>();
        String top = "";
        for (Bracket part : edif.parts()) {
            if (part.is("library") || part.is("external")) {
                for (Bracket cell : part.parts()) {
                    if (cell.is("cell")) {
                        declare(cell, bodies);
                    }
                }
            }
        }
        for (Bracket body : bodies) {
            readContents(body);
        }
        for (Bracket part : edif.parts()) {
            if (part.is("design")) {
                top = cellName(need(part, "cellRef"));
            }
        }
        // a cell without contents is a cell of the target
        modules.values().removeIf(m -> m.instances.isEmpty() && m.joined.isEmpty());
        return new Library(source.label(), modules, top);
    }

    private void declare(Bracket cell, List<Bracket> bodies) throws BadInput {
        String id = key(cell, 0);
        String name = given(cell, 0);
        if (cellNames.put(id, name) != null || modules.containsKey(name)) {
            throw fault(cell, "each cell once", "a second " + Text.quote(name));
        }
        Map<String, String> names = new LinkedHashMap<>();
        Map<String, Range> ranges = new LinkedHashMap<>();
        portNames.put(id, names);
        portRanges.put(id, ranges);
        NetlistModule module = new NetlistModule(name);
        modules.put(name, module);
        for (Bracket view : cell.parts()) {
            if (!view.is("view")) {
                continue;
            }
            for (Bracket part : view.parts()) {
                if (part.is("interface")) {
                    for (Bracket port : part.parts()) {
                        if (port.is("port")) {
                            declarePort(module, port, names, ranges);
                        }
                    }
                } else if (part.is("contents")) {
                    bodies.add(
                            new Bracket(source.label(), "contents", part.line(), list(cell, part)));
                }
            }
        }
    }

    private static List<Object> list(Bracket cell, Bracket contents) {
        List<Object> items = new ArrayList<>();
        items.add(cell);
        items.add(contents);
        return items;
    }

    private void declarePort(
            NetlistModule module,
            Bracket port,
            Map<String, String> names,
            Map<String, Range> ranges)
            throws BadInput {
        Range range = Range.ONE;
        Optional<Bracket> array = port.find("array");
        Bracket named = array.orElse(port);
        if (array.isPresent()) {
            int width = named.integer(1);
            if (width < 1 || width > Range.MOST_BITS) {
                throw fault(named, "1 to " + Range.MOST_BITS + " ports", "" + width);
            }
            range = Range.of(width - 1, 0);
        }
        String name = given(named, 0);
        if (array.isPresent()) {
            // a vector's given name states its indices, as in "count[7:0]"
            int at = name.indexOf('[');
            range = at > 0 ? rangeOf(name.substring(at), range) : range;
            name = at > 0 ? name.substring(0, at) : name;
        }
        Bracket direction = need(port, "direction");
        PortDirection route =
                switch (direction.text(0).toUpperCase(Locale.ROOT)) {
                    case "INPUT" -> PortDirection.IN;
                    case "OUTPUT" -> PortDirection.OUT;
                    default -> PortDirection.BOTH;
                };
        if (module.ports.put(name, route) != null) {
            throw fault(port, "each port once", "a second " + Text.quote(name));
        }
        module.nets.put(name, range);
        names.put(key(named, 0), name);
        ranges.put(name, range);
    }

    private static Range rangeOf(String brackets, Range otherwise) {
        String[] ends = brackets.replaceAll("[\\[\\]]", "").split(":");
        if (ends.length != 2
                || !ends[0].matches("-?[0-9]{1,6}")
                || !ends[1].matches("-?[0-9]{1,6}")) {
            return otherwise;
        }
        Range range = Range.of(Integer.parseInt(ends[0]), Integer.parseInt(ends[1]));
        return range.width() == otherwise.width() ? range : otherwise;
    }

    private void readContents(Bracket body) throws BadInput {
        Bracket cell = (Bracket) body.items().get(0);
        Bracket contents = (Bracket) body.items().get(1);
        String id = key(cell, 0);
        NetlistModule module = modules.get(cellNames.get(id));
        Map<String, EdifInstance> instances = new LinkedHashMap<>();
        Set<String> names = new HashSet<>();
        for (Bracket part : contents.parts()) {
            if (part.is("instance")) {
                String type = key(need(need(part, "viewRef"), "cellRef"), 0);
                if (!cellNames.containsKey(type)) {
                    throw fault(
                            part, "a cell", Nearest.describe(type, cellNames.keySet().stream()));
                }
                String key = key(part, 0);
                String name = given(part, 0);
                boolean again = instances.put(key, new EdifInstance(name, type, part)) != null;
                if (again || !names.add(name)) {
                    throw fault(part, "each instance once", "a second " + Text.quote(name));
                }
            }
        }
        Set<String> nets = new HashSet<>();
        for (Bracket part : contents.parts()) {
            if (part.is("net")) {
                if (!nets.add(key(part, 0))) {
                    throw fault(part, "each net once", "a second " + Text.quote(key(part, 0)));
                }
                readNet(module, id, instances, part);
            }
        }
        for (EdifInstance instance : instances.values()) {
            module.instances.add(instance.finished(cellNames.get(instance.type), source));
        }
    }

    private void readNet(
            NetlistModule module, String cell, Map<String, EdifInstance> instances, Bracket net)
            throws BadInput {
        String name = given(net, 0);
        // A port has a net of its own name already, and people may give several nets one name.
        String own = name;
        while (module.nets.containsKey(own)) {
            own += "'";
            if (own.length() > FabricLimits.NAME_LENGTH) {
                throw fault(net, "few nets of one name", "another " + Text.quote(name));
            }
        }
        module.nets.put(own, Range.ONE);
        Bit bit = new Bit.OfNet(own, Range.SCALAR);
        for (Bracket ref : need(net, "joined").parts()) {
            if (!ref.is("portRef")) {
                continue;
            }
            Optional<Bracket> at = ref.find("instanceRef");
            if (at.isPresent() && !instances.containsKey(key(at.get(), 0))) {
                throw fault(
                        at.get(),
                        "an instance",
                        Nearest.describe(key(at.get(), 0), instances.keySet().stream()));
            }
            String type = at.isPresent() ? instances.get(key(at.get(), 0)).type : cell;
            Optional<Bracket> member = ref.find("member");
            String portId = key(member.orElse(ref), 0);
            String port = portNames.get(type).get(portId);
            if (port == null) {
                throw fault(
                        ref,
                        "a port of cell " + cellNames.get(type),
                        Nearest.describe(portId, portNames.get(type).keySet().stream()));
            }
            Range range = portRanges.get(type).get(port);
            int place = member.isEmpty() ? 0 : range.width() - 1 - member.get().integer(1);
            if (place < 0 || place >= range.width() || (member.isEmpty() && range.width() > 1)) {
                throw fault(ref, "a member of " + port + ", counted from 0", "another");
            }
            if (at.isEmpty()) {
                Bit outer = new Bit.OfNet(port, range.index(place));
                module.joined.add(new NetlistModule.Joined(List.of(outer), List.of(bit)));
            } else {
                instances.get(key(at.get(), 0)).join(module, port, range, place, bit, count);
            }
        }
    }

    private Bracket need(Bracket in, String word) throws BadInput {
        return in.find(word)
                .orElseThrow(
                        () -> fault(in, "\"(" + word + "\" in \"(" + in.word() + "\"", "none"));
    }

    private String cellName(Bracket ref) throws BadInput {
        String name = cellNames.get(key(ref, 0));
        if (name == null) {
            throw fault(ref, "a cell", Text.quote(key(ref, 0)));
        }
        return name;
    }

    /** What references call a thing: its identifier, without regard to case. */
    private static String key(Bracket in, int item) throws BadInput {
        Object name = in.item(item);
        String text = name instanceof Bracket renamed ? renamed.text(0) : (String) name;
        return text.toLowerCase(Locale.ROOT);
    }

    /** Its given name: the second part of a rename. */
    private static String given(Bracket in, int item) throws BadInput {
        Object name = in.item(item);
        if (name instanceof Bracket renamed) {
            return renamed.is("rename") ? renamed.text(1) : renamed.text(0);
        }
        return (String) name;
    }
}
