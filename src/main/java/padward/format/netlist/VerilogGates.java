package padward.format.netlist;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * The gates that are part of the language (IEEE 1364-2005, clause 7). Their pins have no names
 * there; here the output is {@code out} and the inputs {@code in[0]}, {@code in[1]} …
 */
final class VerilogGates {
    private static final Set<String> ONE_OUTPUT = Set.of("and", "nand", "or", "nor", "xor", "xnor");
    private static final Set<String> THREE_STATE = Set.of("bufif0", "bufif1");
    private static final Set<String> ONE_INPUT = Set.of("buf", "not");

    private VerilogGates() {}

    static boolean isGate(VerilogLexer lexer) {
        return lexer.sort() == VerilogLexer.Sort.WORD
                && (ONE_OUTPUT.contains(lexer.word())
                        || ONE_INPUT.contains(lexer.word())
                        || THREE_STATE.contains(lexer.word()));
    }

    /**
     * Pins by name: the output comes first; in {@code buf} and {@code not} the input comes last. In
     * {@code bufif0} and {@code bufif1}, {@code in[1]} switches the output.
     */
    static Map<String, List<Bit>> named(String type, Map<String, List<Bit>> byOrder) {
        Map<String, List<Bit>> pins = new LinkedHashMap<>();
        List<List<Bit>> all = List.copyOf(byOrder.values());
        if (ONE_INPUT.contains(type)) {
            for (int i = 0; i < all.size() - 1; i++) {
                pins.put(i == 0 ? "out" : "out[" + i + "]", all.get(i));
            }
            pins.put("in[0]", all.isEmpty() ? List.of() : all.get(all.size() - 1));
            return pins;
        }
        for (int i = 0; i < all.size(); i++) {
            pins.put(i == 0 ? "out" : "in[" + (i - 1) + "]", all.get(i));
        }
        return pins;
    }
}
