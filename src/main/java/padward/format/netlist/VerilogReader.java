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
import padward.format.IoFaults;
import padward.format.Source;
import padward.format.Text;
import padward.format.TextSource;

/**
 * Reads structural Verilog (IEEE 1364-2005): modules with ports in either style, nets, vectors,
 * instances with connections by name or by order, gates, and assignments that only join. What
 * describes behaviour is refused, with its line.
 */
final class VerilogReader {
    private static final Set<String> NETS =
            Set.of("wire", "tri", "wand", "wor", "supply0", "supply1");
    private static final Set<String> BEHAVIOUR =
            Set.of(
                    "always",
                    "initial",
                    "reg",
                    "integer",
                    "real",
                    "time",
                    "function",
                    "task",
                    "generate",
                    "genvar",
                    "defparam",
                    "specify",
                    "primitive",
                    "event",
                    "for",
                    "if",
                    "case");

    private final VerilogLexer lexer;
    private final Map<String, Module> modules = new LinkedHashMap<>();
    private Module module;
    private VerilogSignals signals;
    private int unnamed;

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
        String name = identifier("the module's name");
        module = new Module(name);
        signals = new VerilogSignals(lexer, module);
        if (modules.put(name, module) != null) {
            throw lexer.fault(place, "each module once", "a second " + Text.quote(name));
        }
        if (lexer.isMark('#')) {
            lexer.next();
            skipBrackets();
        }
        if (lexer.isMark('(')) {
            lexer.next();
            readHeader();
        }
        expectMark(';');
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

    /** Names alone, with their directions to come, or whole declarations. */
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
            String port = identifier("the name of a port");
            if (module.ports.containsKey(port)) {
                throw lexer.fault(place, "each port once", "a second " + Text.quote(port));
            }
            module.ports.put(port, direction);
            if (direction != null) {
                module.nets.put(port, range);
            }
            if (!lexer.isMark(')')) {
                expectMark(',');
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
        expectMark(':');
        int lsb = signals.integer();
        expectMark(']');
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
            skipStatement();
        } else if (BEHAVIOUR.contains(word)) {
            throw lexer.fault("structural Verilog: nets, instances and plain assignments");
        } else if (lexer.isMark(';')) {
            lexer.next();
        } else {
            readInstances();
        }
    }

    private void readPorts() throws BadInput {
        PortDirection direction = readDirection();
        skipNetWord();
        Range range = readRange();
        do {
            String place = lexer.place();
            String port = identifier("the name of a port");
            if (!module.ports.containsKey(port)) {
                throw lexer.fault(place, "a port that the module's head lists", Text.quote(port));
            }
            if (module.ports.put(port, direction) != null) {
                throw lexer.fault(
                        place, "each port's direction once", "a second of " + Text.quote(port));
            }
            module.nets.put(port, range);
        } while (another());
    }

    private void readNets(String sort) throws BadInput {
        lexer.next();
        if (lexer.isWord("signed")) {
            lexer.next();
        }
        Range range = readRange();
        do {
            String place = lexer.place();
            String net = identifier("the name of a net");
            Range before = module.nets.put(net, range);
            if (before != null && !(module.ports.containsKey(net) && before.equals(range))) {
                throw lexer.fault(place, "each net once", "a second " + Text.quote(net));
            }
            if (sort.startsWith("supply")) {
                char value = sort.charAt(sort.length() - 1);
                List<Bit> bits = range.bits(net);
                List<Bit> constant = bits.stream().map(b -> (Bit) new Bit.Constant(value)).toList();
                module.joined.add(new Module.Joined(bits, constant));
            }
            if (lexer.isMark('=')) {
                lexer.next();
                join(place, range.bits(net));
            }
        } while (another());
    }

    private void readAssign() throws BadInput {
        lexer.next();
        do {
            String place = lexer.place();
            List<Bit> left = signals.read();
            expectMark('=');
            join(place, left);
        } while (another());
    }

    /**
     * Reads a right side and joins it; a shorter one is filled with 0, of a longer one the rest
     * falls off.
     */
    private void join(String place, List<Bit> left) throws BadInput {
        List<Bit> right = signals.read();
        if (!lexer.isMark(',') && !lexer.isMark(';')) {
            throw lexer.fault("an assignment that only joins, with \";\" behind");
        }
        int width = left.size();
        List<Bit> fitted =
                right.size() >= width
                        ? right.subList(right.size() - width, right.size())
                        : VerilogSignals.extended(right, width);
        if (width == 0) {
            throw lexer.fault(place, "a net", "nothing");
        }
        module.joined.add(new Module.Joined(left, fitted));
    }

    private void readInstances() throws BadInput {
        boolean gate = VerilogGates.isGate(lexer);
        String type = identifier("a declaration, an instance or \"endmodule\"");
        Map<String, String> parameters = new LinkedHashMap<>();
        if (lexer.isMark('#')) {
            lexer.next();
            if (gate) {
                skipDelay();
            } else {
                readParameters(parameters);
            }
        }
        do {
            String place = lexer.place();
            String name =
                    gate && lexer.isMark('(')
                            ? type + "_" + ++unnamed
                            : identifier("the instance's name");
            if (lexer.isMark('[')) {
                throw lexer.fault("a single instance, \"(\"");
            }
            expectMark('(');
            Map<String, List<Bit>> pins = readPins();
            if (gate) {
                pins = VerilogGates.named(type, pins);
            }
            module.instances.add(new Module.Instance(name, type, pins, parameters, place));
        } while (another());
    }

    private void skipDelay() throws BadInput {
        if (lexer.isMark('(')) {
            skipBrackets();
        } else {
            lexer.next();
        }
    }

    private void readParameters(Map<String, String> parameters) throws BadInput {
        expectMark('(');
        while (!lexer.isMark(')')) {
            if (!lexer.isMark('.')) {
                throw lexer.fault("a parameter by name, \".NAME(value)\"");
            }
            lexer.next();
            String name = identifier("the name of a parameter");
            expectMark('(');
            StringBuilder value = new StringBuilder();
            while (!lexer.isMark(')')) {
                if (lexer.sort() == VerilogLexer.Sort.END || lexer.isMark('(')) {
                    throw lexer.fault("a plain value and \")\"");
                }
                value.append(lexer.word());
                lexer.next();
            }
            lexer.next();
            parameters.put(name, value.toString());
            if (!lexer.isMark(')')) {
                expectMark(',');
            }
        }
        lexer.next();
    }

    private Map<String, List<Bit>> readPins() throws BadInput {
        Map<String, List<Bit>> pins = new LinkedHashMap<>();
        boolean byName = lexer.isMark('.');
        while (!lexer.isMark(')')) {
            String place = lexer.place();
            String pin = "#" + pins.size();
            List<Bit> bits = List.of();
            if (byName) {
                expectMark('.');
                pin = identifier("the name of a pin");
                expectMark('(');
                bits = lexer.isMark(')') ? bits : signals.read();
                expectMark(')');
            } else if (!lexer.isMark(',')) {
                bits = signals.read();
            }
            if (pins.put(pin, bits) != null) {
                throw lexer.fault(place, "each pin once", "a second " + Text.quote(pin));
            }
            if (!lexer.isMark(')')) {
                expectMark(',');
            }
        }
        lexer.next();
        return pins;
    }

    /** Whether a list goes on; past its end otherwise. */
    private boolean another() throws BadInput {
        if (lexer.isMark(',')) {
            lexer.next();
            return true;
        }
        expectMark(';');
        return false;
    }

    private String identifier(String what) throws BadInput {
        boolean plain =
                lexer.sort() == VerilogLexer.Sort.WORD
                        && !BEHAVIOUR.contains(lexer.word())
                        && !lexer.word().equals("endmodule");
        if (!plain && lexer.sort() != VerilogLexer.Sort.ESCAPED || lexer.word().isEmpty()) {
            throw lexer.fault(what);
        }
        String word = lexer.word();
        lexer.next();
        return word;
    }

    private void expectMark(char mark) throws BadInput {
        if (!lexer.isMark(mark)) {
            throw lexer.fault("\"" + mark + "\"");
        }
        lexer.next();
    }

    private void skipStatement() throws BadInput {
        while (!lexer.isMark(';')) {
            if (lexer.sort() == VerilogLexer.Sort.END) {
                throw lexer.fault("\";\"");
            }
            lexer.next();
        }
        lexer.next();
    }

    private void skipBrackets() throws BadInput {
        int depth = 0;
        do {
            depth += lexer.isMark('(') ? 1 : lexer.isMark(')') ? -1 : 0;
            if (lexer.sort() == VerilogLexer.Sort.END) {
                throw lexer.fault("\")\"");
            }
            lexer.next();
        } while (depth > 0);
    }
}
