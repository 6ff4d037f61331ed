package padward.cli.output;

import java.io.PrintWriter;
import java.util.Collection;
import java.util.List;
import padward.breakout.ask.Caution;
import padward.breakout.ask.Cautions;

/** Prints cautions: the serious ones stand out, and the same line is under all of them. */
public final class CautionTable {
    private CautionTable() {}

    /** The cautions about one pad. */
    public static void print(Collection<Caution> cautions, PrintWriter out) {
        printLines(cautions.stream().map(c -> line(c.kind(), c.text())).toList(), out);
    }

    /** The cautions about several pads. */
    public static void printShared(Collection<Cautions.Shared> cautions, PrintWriter out) {
        printLines(cautions.stream().map(s -> line(s.caution().kind(), s.toText())).toList(), out);
    }

    private static String line(Caution.Kind kind, String text) {
        return (kind.isSerious() ? "  ! DANGER: " : "  - ") + text;
    }

    private static void printLines(List<String> lines, PrintWriter out) {
        if (lines.isEmpty()) {
            return;
        }
        out.println();
        out.println("Cautions:");
        lines.forEach(out::println);
        out.println("  " + Cautions.FOOTER);
    }
}
