package padward.format;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.base.Progress;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.design.Design;
import padward.fabric.Fabric;
import padward.format.design.DesignReader;
import padward.format.design.ImportedFiles;
import padward.format.fabric.FabricReader;
import padward.format.ledger.Journal;
import padward.format.ledger.JournalTest;
import padward.format.ledger.LedgerFile;
import padward.format.source.FolderSwap;
import padward.format.tables.TableExport;
import padward.format.tables.TableImport;

/**
 * A program that keeps and undoes entries, in a ledger and in a journal, or exports and imports
 * tables, until it is killed. Entries and tables are numbered; each number is printed once it is
 * reported as kept or written.
 */
public final class KilledWriter {
    /** Entries at most: beyond, the oldest are undone. */
    static final int MOST = 5;

    private KilledWriter() {}

    /** The folder, and {@code keep} or {@code tables}. Runs forever. */
    public static void main(String[] args) throws Exception {
        Path folder = Path.of(args[0]);
        if (args[1].equals("keep")) {
            keep(folder);
        } else {
            writeTables(folder);
        }
    }

    private static void keep(Path folder) throws Exception {
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

    /** Exports and imports a design whose note is a number, one higher each time. */
    private static void writeTables(Path folder) throws Exception {
        Path tables = folder.resolve("tables");
        Path imported = folder.resolve("imported");
        Design design = DesignReader.read(folder.resolve("only.design.json"), Progress.NONE);
        int number = Math.max(standing(tables), standingImport(imported));
        while (true) {
            number++;
            TableExport.write(noted(design, "" + number), tables, false, Progress.NONE);
            System.out.println("tables " + number);
            TableImport.Sound sound = (TableImport.Sound) readTables(tables);
            ImportedFiles.write(sound.fabric(), sound.board(), sound.design(), imported);
            System.out.println("imported " + number);
        }
    }

    private static Design noted(Design design, String note) {
        return new Design(
                design.name(),
                note,
                design.fabric(),
                design.board(),
                List.copyOf(design.cells()),
                List.copyOf(design.nets()),
                List.copyOf(design.ports()));
    }

    static TableImport.Result readTables(Path tables) throws BadInput {
        return TableImport.read(tables, Optional.empty(), 1, Progress.NONE);
    }

    /** The number in a folder of tables, or in the one that was moved away for it. */
    static int standing(Path tables) throws BadInput {
        Path folder = whereItStands(tables);
        if (!Files.exists(folder)) {
            return 0;
        }
        TableImport.Sound sound = (TableImport.Sound) readTables(folder);
        return Integer.parseInt(sound.design().orElseThrow().note());
    }

    /** The same of a folder of imported files. */
    static int standingImport(Path imported) throws BadInput {
        Path file = whereItStands(imported).resolve("design.json.gz");
        return Files.exists(file)
                ? Integer.parseInt(DesignReader.read(file, Progress.NONE).note())
                : 0;
    }

    private static Path whereItStands(Path folder) {
        List<Path> left = FolderSwap.leftBehind(folder);
        return left.isEmpty() ? folder : left.get(0);
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
