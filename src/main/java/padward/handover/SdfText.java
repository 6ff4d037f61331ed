package padward.handover;

import java.util.Locale;
import padward.design.Design;
import padward.design.Net;
import padward.design.Terminal;

/**
 * The delays of the new routes for back-annotated simulation, as SDF (IEEE 1497-2001): one
 * INTERCONNECT from each net's driver to its new port, minimum and maximum from the fast and the
 * slow corner, in picoseconds. The typical value is left out because it is unknown.
 */
public final class SdfText {
    private SdfText() {}

    /** The file's text. */
    public static String of(BenchSheet sheet, Design after) {
        StringBuilder out = new StringBuilder();
        out.append("(DELAYFILE\n (SDFVERSION \"4.0\")\n");
        out.append(" (DESIGN \"").append(quoted(sheet.title())).append("\")\n");
        out.append(" (PROGRAM \"Padward\")\n (DIVIDER /)\n (TIMESCALE 1ps)\n");
        out.append(" (CELL (CELLTYPE \"").append(quoted(sheet.title())).append("\") (INSTANCE)\n");
        out.append("  (DELAY (ABSOLUTE\n");
        for (BenchSheet.Line line : sheet.lines()) {
            Net net = after.findNet(line.net()).orElseThrow();
            out.append(
                    String.format(
                            Locale.ROOT,
                            "   (INTERCONNECT %s %s (%d::%d) (%d::%d))%n",
                            driver(after, net),
                            identifier(line.port()),
                            line.atPin().fastPs(),
                            line.atPin().slowPs(),
                            line.atPin().fastPs(),
                            line.atPin().slowPs()));
        }
        out.append("  ))\n )\n)\n");
        return out.toString().replace("\r\n", "\n");
    }

    private static String driver(Design design, Net net) {
        if (net.driver() instanceof Terminal.CellPin at) {
            return identifier(design.cells().get(at.cell()).name()) + "/" + identifier(at.pin());
        }
        return identifier(design.ports().get(((Terminal.PortEnd) net.driver()).port()).name());
    }

    /**
     * Letters, digits, underscores and the divider are not escaped; everything else is, a character
     * at a time, also one that takes two of Java's.
     */
    static String identifier(String name) {
        StringBuilder result = new StringBuilder();
        name.codePoints()
                .forEach(
                        c -> {
                            boolean plain =
                                    c < 128
                                            && (Character.isLetterOrDigit(c)
                                                    || c == '_'
                                                    || c == '/');
                            result.append(plain ? "" : "\\").appendCodePoint(c);
                        });
        return result.toString();
    }

    /** A backslash at the end would take the quotation mark with it. */
    static String quoted(String text) {
        return text.replace('"', '\'').replace('\\', '/');
    }
}
