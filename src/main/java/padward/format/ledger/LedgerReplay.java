package padward.format.ledger;

import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import padward.base.BadInput;
import padward.change.EntryReplay;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.design.Design;
import padward.format.design.Digest;
import padward.format.source.Text;

/**
 * What the entries of a ledger make of a design, checked with the digests that the ledger states.
 * Everything that uses a ledger on the file that it was made on comes through here.
 */
public final class LedgerReplay {
    private static final int MOST_REASONS = 4;

    private LedgerReplay() {}

    /** Whether a ledger was made on a design's file. */
    public static boolean isOf(Ledger ledger, Path designFile) throws BadInput {
        return ledger.digest().equals(Digest.of(designFile));
    }

    /**
     * Checks that a ledger was made on a design's file.
     *
     * @param file the ledger's file
     * @throws BadInput when it was made on another one
     */
    public static void checkFile(Ledger ledger, Path file, Path designFile) throws BadInput {
        String digest = Digest.of(designFile);
        if (!ledger.digest().equals(digest)) {
            throw new BadInput(
                    BadInput.Kind.OTHER_FILE,
                    file.toString(),
                    "$.sha256",
                    "the ledger of " + designFile + ", " + digest,
                    ledger.digest()
                            + " (it was made on another file, "
                            + Text.quote(ledger.design())
                            + "; apply with --new-ledger writes one for this file)");
        }
    }

    /**
     * The design with all entries. As the digests of a ledger that was read follow one another, the
     * first and the last are compared, and all of them when that fails. O(size of the design).
     *
     * @param file the ledger's file
     * @throws BadInput when an entry does not fit, or does not give what it gave when it was kept
     */
    public static Design applied(Ledger ledger, Path file, Design design) throws BadInput {
        List<LedgerEntry> entries = ledger.entries();
        Ledger.Applied applied = ledger.applyTo(design);
        if (applied instanceof Ledger.Applied.Fits fits
                && (entries.isEmpty()
                        || digests(entries, 0).before().equals(Digest.of(design))
                                && digests(entries, entries.size() - 1)
                                        .after()
                                        .equals(Digest.of(fits.design())))) {
            return fits.design();
        }
        return eachApplied(ledger, file, design);
    }

    /**
     * The design with all entries, each of which must give the result that is recorded. O(entries ×
     * size of the design).
     *
     * @param file the ledger's file
     * @throws BadInput when an entry does not fit, or does not give what it gave when it was kept
     */
    public static Design eachApplied(Ledger ledger, Path file, Design design) throws BadInput {
        EntryReplay replay = new EntryReplay(design);
        List<LedgerEntry> entries = ledger.entries();
        String now = entries.isEmpty() ? "" : Digest.of(design);
        for (int i = 0; i < entries.size(); i++) {
            LedgerEntry.Digests recorded = digests(entries, i);
            String place = "$.entries[" + i + "]";
            expect(file, place + ".before", now, recorded.before());
            List<String> reasons = replay.add(entries.get(i).edits());
            if (!reasons.isEmpty()) {
                throw clash(List.of(new Ledger.Clash(i, entries.get(i), reasons)), file);
            }
            now = Digest.of(replay.design());
            expect(file, place + ".after", now, recorded.after());
        }
        return replay.design();
    }

    private static LedgerEntry.Digests digests(List<LedgerEntry> entries, int index) {
        return entries.get(index).digests().orElseThrow();
    }

    /**
     * Checks that each entry of a ledger begins where the one before it ended.
     *
     * @throws BadInput when one does not
     */
    static void checkOrder(Ledger ledger, String file) throws BadInput {
        List<LedgerEntry> entries = ledger.entries();
        for (int i = 1; i < entries.size(); i++) {
            String before = digests(entries, i).before();
            String expected = digests(entries, i - 1).after();
            if (!before.equals(expected)) {
                throw new BadInput(
                        file,
                        "$.entries[" + i + "].before",
                        expected + ", what the entry before it states as after",
                        before);
            }
        }
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
                BadInput.Kind.DOES_NOT_FIT,
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
}
