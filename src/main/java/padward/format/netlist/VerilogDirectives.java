package padward.format.netlist;

import java.util.Map;
import java.util.regex.Pattern;
import padward.base.BadInput;
import padward.format.source.Characters;
import padward.format.source.Text;

/**
 * The compiler directives of Verilog (IEEE 1364-2005, clause 19). Those that change nothing in a
 * structural netlist are passed over; those that decide what is read, uses of macros among them,
 * are faults.
 */
final class VerilogDirectives {
    private static final int LONGEST = 64;

    /** Characters of a line: what comes after them cannot be an argument. */
    private static final int FAR = 10_000;

    private static final String TIME = "\\s*1(0|00)?\\s*[munpf]?s\\s*";

    /** What may follow on the line; for directives without arguments anything, it is read on. */
    private static final Map<String, Pattern> HARMLESS =
            Map.of(
                    "celldefine", Pattern.compile(""),
                    "endcelldefine", Pattern.compile(""),
                    "resetall", Pattern.compile(""),
                    "nounconnected_drive", Pattern.compile(""),
                    "end_keywords", Pattern.compile(""),
                    "begin_keywords", Pattern.compile("\\s*\"[^\"]*\"\\s*"),
                    "default_nettype", Pattern.compile("\\s+(wire|tri|uwire|none)\\s*"),
                    "timescale", Pattern.compile(TIME + "/" + TIME),
                    "line", Pattern.compile("\\s+\\d+\\s+\"[^\"]*\"\\s+[012]\\s*"));

    private VerilogDirectives() {}

    /**
     * Passes over a directive, whose mark has been read.
     *
     * @throws BadInput when it may change what is read
     */
    static void skip(Characters text) throws BadInput {
        String place = Characters.place(text.line());
        StringBuilder collected = new StringBuilder();
        int c = text.get();
        while (isPart(c) && collected.length() <= LONGEST) {
            collected.append((char) c);
            c = text.get();
        }
        text.back(c);
        String name = collected.toString();
        if (!HARMLESS.containsKey(name)) {
            throw text.fault(
                    place,
                    "text without macros and without directives that decide what is read"
                            + " (run the preprocessor of the tool that wrote it first)",
                    Text.quote("`" + name));
        }
        Pattern arguments = HARMLESS.get(name);
        if (!arguments.pattern().isEmpty()) {
            String rest = line(text);
            if (!arguments.matcher(rest).matches()) {
                throw text.fault(
                        place,
                        "after `" + name + " its usual arguments and nothing else on the line",
                        Text.quote(rest.strip()));
            }
        }
    }

    /** The rest of the line, without its end and without a comment. */
    private static String line(Characters text) throws BadInput {
        StringBuilder rest = new StringBuilder();
        for (int c = text.get(); c >= 0 && c != '\n'; c = text.get()) {
            if (rest.length() < FAR) {
                rest.append((char) c);
            }
        }
        return rest.toString().replaceFirst("//.*", "").replaceFirst("/\\*.*\\*/\\s*$", "");
    }

    private static boolean isPart(int c) {
        return c >= 'a' && c <= 'z'
                || c >= 'A' && c <= 'Z'
                || c >= '0' && c <= '9'
                || c == '_'
                || c == '$';
    }
}
