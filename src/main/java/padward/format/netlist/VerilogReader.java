package padward.format.netlist;

import java.io.IOException;
import java.io.Reader;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.PortDirection;
import padward.format.source.IoFaults;
import padward.format.source.Source;
import padward.format.source.Text;
import padward.format.source.TextSource;

/**
 * Reads structural Verilog (IEEE 1364-2005): modules with ports in either style, nets, vectors,
 * instances with connections by name or by order, gates, and assignments of one net to another.
 * Behavioural descriptions are refused, with their line.
 */
final class VerilogReader {
    private static final Set<String> NETS =
            Set.of("wire", "tri", "wand", "wor", "supply0", "supply1");

    private final VerilogLexer lexer;
    private final BitCount count = new BitCount();
    private final Map<String, NetlistModule> modules = new LinkedHashMap<>();
    private NetlistModule module;
    private VerilogSignals signals;
    private VerilogInstances instances;

    private VerilogReader(VerilogLexer lexer) {
        this.lexer = lexer;
    }

    /**
     * Reads a file.
     *
     * @throws BadInput when it cannot be read or is not of this subset
     */
    static Library read(Source source, Progress progress) throws BadInput {
        try (Reader text = TextSource.open(source, progress)) {
            VerilogReader reader = new VerilogReader(new VerilogLexer(source, text));
            reader.readAll();
            return new Library(source.label(), reader.modules, "");
        } catch (IOException e) {
            throw IoFaults.describe(source, e);
        }
    }

    private void readAll() throws BadInput {
        lexer.next();
        while (lexer.sort() != VerilogLexer.Sort.END) {
            if (!lexer.isWord("module") && !lexer.isWord("macromodule")) {
                throw lexer.fault("\"module\"");
            }
            readModule();
        }
        if (modules.isEmpty()) {
            throw lexer.fault("a module");
        }
    }

    private void readModule() throws BadInput {
        lexer.next();
        String place = lexer.place();
        String name = lexer.identifier("the module's name");
        module = new NetlistModule(name);
        signals = new VerilogSignals(lexer, module, count);
        instances = new VerilogInstances(lexer, module, signals);
        if (modules.put(name, module) != null) {
            throw lexer.fault(place, "each module once", "a second " + Text.quote(name));
        }
        if (lexer.isMark('#')) {
            lexer.next();
            lexer.skipBrackets();
        }
        if (lexer.isMark('(')) {
            lexer.next();
            readHeader();
        }
        lexer.expectMark(';');
        while (!lexer.isWord("endmodule")) {
            readItem();
        }
        lexer.next();
        for (Map.Entry<String, PortDirection> port : module.ports.entrySet()) {
            if (port.getValue() == null) {
                throw lexer.fault(
                        place,
                        "a direction for each port of module " + name,
                        "none for " + Text.quote(port.getKey()));
            }
        }
    }

    /** Names only, whose directions follow, or whole declarations. */
    private void readHeader() throws BadInput {
        PortDirection direction = null;
        Range range = Range.ONE;
        while (!lexer.isMark(')')) {
            if (isDirection()) {
                direction = readDirection();
                skipNetWord();
                range = readRange();
            }
            String place = lexer.place();
            String port = lexer.identifier("the name of a port");
            if (module.ports.containsKey(port)) {
                throw lexer.fault(place, "each port once", "a second " + Text.quote(port));
            }
            module.ports.put(port, direction);
            if (direction != null) {
                module.nets.put(port, range);
            }
            if (!lexer.isMark(')')) {
                lexer.expectMark(',');
            }
        }
        lexer.next();
    }

    private boolean isDirection() {
        return lexer.isWord("input") || lexer.isWord("output") || lexer.isWord("inout");
    }

    private PortDirection readDirection() throws BadInput {
        PortDirection direction =
                switch (lexer.word()) {
                    case "input" -> PortDirection.IN;
                    case "output" -> PortDirection.OUT;
                    default -> PortDirection.BOTH;
                };
        lexer.next();
        return direction;
    }

    private void skipNetWord() throws BadInput {
        if (lexer.sort() == VerilogLexer.Sort.WORD && NETS.contains(lexer.word())) {
            lexer.next();
        }
        if (lexer.isWord("signed")) {
            lexer.next();
        }
    }

    private Range readRange() throws BadInput {
        if (!lexer.isMark('[')) {
            return Range.ONE;
        }
        lexer.next();
        String place = lexer.place();
        int msb = signals.integer();
        lexer.expectMark(':');
        int lsb = signals.integer();
        lexer.expectMark(']');
        Range range = Range.of(msb, lsb);
        if (range.width() > Range.MOST_BITS) {
            throw lexer.fault(
                    place, "at most " + Range.MOST_BITS + " bits", range.width() + " bits");
        }
        return range;
    }

    private void readItem() throws BadInput {
        String word = lexer.sort() == VerilogLexer.Sort.WORD ? lexer.word() : "";
        if (isDirection()) {
            readPorts();
        } else if (NETS.contains(word)) {
            readNets(word);
        } else if (word.equals("assign")) {
            readAssign();
        } else if (word.equals("parameter") || word.equals("localparam")) {
            lexer.skipStatement();
        } else if (lexer.isBehaviour()) {
            throw lexer.fault("structural Verilog: nets, instances and plain assignments");
        } else if (lexer.isMark(';')) {
            lexer.next();
        } else {
            instances.read();
        }
    }

    private void readPorts() throws BadInput {
        PortDirection direction = readDirection();
        skipNetWord();
        Range range = readRange();
        do {
            String place = lexer.place();
            String port = lexer.identifier("the name of a port");
            if (!module.ports.containsKey(port)) {
                throw lexer.fault(place, "a port that the module's header lists", Text.quote(port));
            }
            if (module.ports.put(port, direction) != null) {
                throw lexer.fault(
                        place, "each port's direction once", "a second of " + Text.quote(port));
            }
            Range before = module.nets.put(port, range);
            if (before != null && !before.equals(range)) {
                throw lexer.fault(
                        place,
                        "a direction before the port is used, or with the same range",
                        Text.quote(port) + " with another");
            }
        } while (lexer.another());
    }

    private void readNets(String sort) throws BadInput {
        lexer.next();
        if (lexer.isWord("signed")) {
            lexer.next();
        }
        Range range = readRange();
        do {
            String place = lexer.place();
            String net = lexer.identifier("the name of a net");
            Range before = module.nets.put(net, range);
            if (before != null && !(module.ports.containsKey(net) && before.equals(range))) {
                throw lexer.fault(place, "each net once", "a second " + Text.quote(net));
            }
            if (sort.startsWith("supply")) {
                char value = sort.charAt(sort.length() - 1);
                List<Bit> bits = signals.whole(net, range);
                List<Bit> constant = bits.stream().map(b -> (Bit) new Bit.Constant(value)).toList();
                module.joined.add(new NetlistModule.Joined(bits, constant));
            }
            if (lexer.isMark('=')) {
                lexer.next();
                join(place, signals.whole(net, range));
            }
        } while (lexer.another());
    }

    private void readAssign() throws BadInput {
        lexer.next();
        do {
            String place = lexer.place();
            List<Bit> left = signals.read();
            lexer.expectMark('=');
            join(place, left);
        } while (lexer.another());
    }

    /** Reads a right side and joins it; a shorter one is filled with 0, a longer one is cut off. */
    private void join(String place, List<Bit> left) throws BadInput {
        List<Bit> right = signals.read();
        if (!lexer.isMark(',') && !lexer.isMark(';')) {
            throw lexer.fault("a plain assignment of one net to another, ended by \";\"");
        }
        int width = left.size();
        List<Bit> fitted =
                right.size() >= width
                        ? right.subList(right.size() - width, right.size())
                        : VerilogSignals.extended(right, width);
        if (width == 0) {
            throw lexer.fault(place, "a net", "nothing");
        }
        module.joined.add(new NetlistModule.Joined(left, fitted));
    }
}
