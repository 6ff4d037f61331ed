package padward.cli.output;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import padward.base.BadInput;
import padward.breakout.verify.ChangeAudit;
import padward.breakout.verify.Difference;
import padward.change.EntryReplay;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.change.Part;
import padward.design.Design;
import padward.format.design.Digest;
import padward.format.source.Text;

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

    /**
     * The design with all entries applied, on the very file that the ledger was made on.
     *
     * @param file the ledger's file
     * @param designFile the design's file
     * @throws BadInput when that is another file, or an entry does not give what it gave then
     */
    public static Design applyAsKept(Ledger ledger, Path file, Design design, Path designFile)
            throws BadInput {
        String digest = Digest.of(designFile);
        if (!ledger.digest().equals(digest)) {
            throw new BadInput(
                    file.toString(),
                    "$.sha256",
                    "the ledger of " + designFile + ", " + digest,
                    ledger.digest()
                            + " (it was made on another file, "
                            + Text.quote(ledger.design())
                            + "; apply with --new-ledger writes one for this file)");
        }
        return replay(ledger, file, design);
    }

    /** The design with all entries, each of which must give the result that is recorded. */
    public static Design replay(Ledger ledger, Path file, Design design) throws BadInput {
        EntryReplay replay = new EntryReplay(design);
        String now = Digest.of(design);
        for (int i = 0; i < ledger.entries().size(); i++) {
            LedgerEntry entry = ledger.entries().get(i);
            LedgerEntry.Digests recorded = entry.digests().orElseThrow();
            String place = "$.entries[" + i + "]";
            expect(file, place + ".before", now, recorded.before());
            List<String> reasons = replay.add(entry.edits());
            if (!reasons.isEmpty()) {
                throw clash(List.of(new Ledger.Clash(i, entry, reasons)), file);
            }
            now = Digest.of(replay.design());
            expect(file, place + ".after", now, recorded.after());
        }
        return replay.design();
    }

    private static void expect(Path file, String place, String now, String recorded)
            throws BadInput {
        if (!now.equals(recorded)) {
            throw new BadInput(file.toString(), place, now, recorded);
        }
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
