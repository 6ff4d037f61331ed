package padward.format;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import padward.base.Progress;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.fabric.Fabric;
import padward.format.fabric.FabricReader;
import padward.format.ledger.Journal;
import padward.format.ledger.JournalTest;
import padward.format.ledger.LedgerFile;

/**
 * A program that keeps entries, in a ledger and in a journal, until it is killed. Entries are
 * numbered; each number is printed once its entry is reported as kept.
 */
public final class KilledWriter {
    /** Entries at most: beyond, the oldest are undone. */
    static final int MOST = 5;

    private KilledWriter() {}

    /** Runs forever. */
    public static void main(String[] args) throws Exception {
        Path folder = Path.of(args[0]);
        Path design = folder.resolve("only.design.json");
        Fabric fabric = FabricReader.read(folder.resolve("only.fabric.json"), Progress.NONE);
        Journal journal = Journal.open(folder.resolve("a.journal"), "d", fabric).orElseThrow();
        List<LedgerEntry> kept = new ArrayList<>(journal.found());
        while (true) {
            Ledger ledger =
                    LedgerFile.change(
                            folder.resolve("bench.json"),
                            design,
                            fabric,
                            old ->
                                    old.withEntries(
                                            withOneMore(old.entries()).stream()
                                                    .map(e -> e.signed("-", "-"))
                                                    .toList()));
            System.out.println("ledger " + last(ledger.entries()));
            kept = withOneMore(kept);
            journal.record(kept);
            System.out.println("journal " + last(kept));
        }
    }

    /** The number of the last entry, 0 when there is none. */
    static int last(List<LedgerEntry> entries) {
        return entries.isEmpty()
                ? 0
                : Integer.parseInt(entries.get(entries.size() - 1).net().substring(1));
    }

    private static List<LedgerEntry> withOneMore(List<LedgerEntry> old) {
        List<LedgerEntry> all = new ArrayList<>(old);
        all.add(JournalTest.entry(last(old) + 1));
        return all.size() > MOST ? all.subList(1, all.size()) : all;
    }
}
