package padward.cli.output;

import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import padward.breakout.verify.ChangeAudit;
import padward.breakout.verify.Difference;
import padward.change.Part;

/** What changed, as the ledger commands print it. */
public final class PrintedLedger {
    private static final int MOST_NAMED = 12;

    private PrintedLedger() {}

    /** Prints what changed, and whether anything else did. */
    public static void print(ChangeAudit report, PrintWriter out) {
        for (Part.Kind kind : Part.Kind.values()) {
            for (Difference how : Difference.values()) {
                List<String> names =
                        report.touched().stream()
                                .filter(t -> t.kind() == kind && t.how() == how)
                                .map(t -> t.name() + " (" + entries(t.entries()) + ")")
                                .toList();
                line(plural(kind) + " " + how.label(), names, out);
            }
        }
        out.println(report.sentence());
    }

    private static String plural(Part.Kind kind) {
        String word = kind.label();
        return word.substring(0, 1).toUpperCase(Locale.ROOT) + word.substring(1) + "s";
    }

    private static String entries(List<Integer> numbers) {
        return (numbers.size() == 1 ? "entry " : "entries ")
                + numbers.stream().map(String::valueOf).collect(Collectors.joining(", "));
    }

    private static void line(String what, List<String> names, PrintWriter out) {
        if (!names.isEmpty()) {
            int more = names.size() - MOST_NAMED;
            String few = names.stream().limit(MOST_NAMED).collect(Collectors.joining(", "));
            out.println(what + ": " + few + (more > 0 ? " and " + more + " more" : ""));
        }
    }
}
