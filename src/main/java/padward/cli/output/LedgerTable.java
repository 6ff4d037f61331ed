package padward.cli.output;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import padward.base.BadInput;
import padward.breakout.verify.ChangeAudit;
import padward.breakout.verify.Difference;
import padward.change.Ledger;
import padward.change.Part;
import padward.design.Design;

/** Shared parts of the ledger commands. */
public final class LedgerTable {
    private static final int MOST_NAMED = 12;
    private static final int MOST_REASONS = 4;

    private LedgerTable() {}

    /** The design with all entries applied. */
    public static Design apply(Ledger ledger, Design design, Path file) throws BadInput {
        Ledger.Applied applied = ledger.applyTo(design);
        if (applied instanceof Ledger.Applied.Fits fits) {
            return fits.design();
        }
        throw clash(((Ledger.Applied.Clashes) applied).all(), file);
    }

    /** The fault of entries that do not fit: the first in full, the others by number. */
    public static BadInput clash(List<Ledger.Clash> clashes, Path file) {
        Ledger.Clash first = clashes.get(0);
        int more = clashes.size() - 1;
        return new BadInput(
                file.toString(),
                "$.entries[" + first.index() + "]",
                "a change that fits the design (" + first.entry().what() + "; ask again for it)",
                few(first.reasons())
                        + (more == 0
                                ? ""
                                : "; " + more + " more do not fit: entries " + numbers(clashes)));
    }

    private static String numbers(List<Ledger.Clash> clashes) {
        return clashes.stream()
                .skip(1)
                .map(c -> String.valueOf(c.index() + 1))
                .collect(Collectors.joining(", "));
    }

    /** The first reasons, and the number of others. */
    public static String few(List<String> reasons) {
        int more = reasons.size() - MOST_REASONS;
        String few = reasons.stream().limit(MOST_REASONS).collect(Collectors.joining("; "));
        return more > 0 ? few + "; and " + more + " more" : few;
    }

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
