package padward.format.netlist;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import padward.base.BadInput;
import padward.format.source.Text;

/** Reads the instances of modules and gates (IEEE 1364-2005, clauses 7 and 12). */
final class VerilogInstances {
    private final VerilogLexer lexer;
    private final NetlistModule module;
    private final VerilogSignals signals;
    private int unnamed;

    VerilogInstances(VerilogLexer lexer, NetlistModule module, VerilogSignals signals) {
        this.lexer = lexer;
        this.module = module;
        this.signals = signals;
    }

    /** Reads instances of one type, up to the semicolon. */
    void read() throws BadInput {
        boolean gate = VerilogGates.isGate(lexer);
        String type = lexer.identifier("a declaration, an instance or \"endmodule\"");
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
                            : lexer.identifier("the instance's name");
            if (lexer.isMark('[')) {
                throw lexer.fault("a single instance, \"(\"");
            }
            lexer.expectMark('(');
            Map<String, List<Bit>> pins = readPins();
            if (gate) {
                pins = VerilogGates.named(type, pins);
            }
            module.instances.add(new NetlistModule.Instance(name, type, pins, parameters, place));
        } while (lexer.another());
    }

    private void skipDelay() throws BadInput {
        if (lexer.isMark('(')) {
            lexer.skipBrackets();
        } else {
            lexer.next();
        }
    }

    private void readParameters(Map<String, String> parameters) throws BadInput {
        lexer.expectMark('(');
        while (!lexer.isMark(')')) {
            if (!lexer.isMark('.')) {
                throw lexer.fault("a parameter by name, \".NAME(value)\"");
            }
            lexer.next();
            String name = lexer.identifier("the name of a parameter");
            lexer.expectMark('(');
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
                lexer.expectMark(',');
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
                lexer.expectMark('.');
                pin = lexer.identifier("the name of a pin");
                lexer.expectMark('(');
                bits = lexer.isMark(')') ? bits : signals.read();
                lexer.expectMark(')');
            } else if (!lexer.isMark(',')) {
                bits = signals.read();
            }
            if (pins.put(pin, bits) != null) {
                throw lexer.fault(place, "each pin once", "a second " + Text.quote(pin));
            }
            if (!lexer.isMark(')')) {
                lexer.expectMark(',');
            }
        }
        lexer.next();
        return pins;
    }
}
