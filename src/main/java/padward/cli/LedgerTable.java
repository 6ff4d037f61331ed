package padward.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import padward.base.BadInput;
import padward.breakout.Harmlessness;
import padward.design.Design;
import padward.design.Ledger;

/** What the commands around a ledger share. */
final class LedgerTable {
    private static final int MOST_NAMED = 12;

    private LedgerTable() {}

    /** The design with all entries. */
    static Design apply(Ledger ledger, Design design, Path file) throws BadInput {
        Ledger.Applied applied = ledger.applyTo(design);
        if (applied instanceof Ledger.Applied.Fits fits) {
            return fits.design();
        }
        throw clash(ledger, (Ledger.Applied.Clashes) applied, file);
    }

    static BadInput clash(Ledger ledger, Ledger.Applied.Clashes clashes, Path file) {
        var entry = ledger.entries().get(clashes.index());
        return new BadInput(
                file.toString(),
                "$.entries[" + clashes.index() + "]",
                "a change that fits the design ("
                        + entry.net()
                        + " on "
                        + entry.pad()
                        + "; ask again for it)",
                String.join("; ", clashes.reasons()));
    }

    /** Tells what was touched, and that nothing else was. */
    static void print(Harmlessness report, PrintWriter out) {
        line("Nets changed", report.netsChanged(), out);
        line("Nets gone", report.netsGone(), out);
        line("Nets new", report.netsNew(), out);
        line("Cells changed", report.cellsChanged(), out);
        line("Cells gone", report.cellsGone(), out);
        line("Cells new", report.cellsNew(), out);
        out.println(
                "All other "
                        + report.netsSame()
                        + " nets keep every wire and every delay, and all other "
                        + report.cellsSame()
                        + " cells their sites and settings.");
    }

    private static void line(String what, List<String> names, PrintWriter out) {
        if (!names.isEmpty()) {
            int more = names.size() - MOST_NAMED;
            String few = names.stream().limit(MOST_NAMED).collect(Collectors.joining(", "));
            out.println(what + ": " + few + (more > 0 ? " and " + more + " more" : ""));
        }
    }
}
