package padward.format;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.stream.JsonWriter;
import it.unimi.dsi.fastutil.longs.LongSet;
import java.io.BufferedReader;
import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.commons.codec.digest.DigestUtils;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.io.output.AppendableOutputStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.BadInput;
import padward.base.Progress;
import padward.change.LedgerEntry;
import padward.fabric.Fabric;
import padward.format.fabric.FabricReader;
import padward.format.ledger.Journal;
import padward.format.ledger.JournalTest;
import padward.format.ledger.LedgerFile;
import padward.format.ledger.LedgerReader;

/**
 * A program that keeps and undoes entries, or exports and imports tables, is killed at random
 * moments (SIGKILL where there are signals), again and again, on the same files. What it reported
 * as kept or written must be there; its last entry or folder must be there as a whole or not at
 * all; and the next program can continue.
 */
public class KillTest {
    private static final int SAMPLE = 12;
    private static final int MANY = 1000;

    /** As short as possible: most of a round is the start of the program. */
    public static final String CLASS_PATH =
            Stream.of(
                            KilledWriter.class,
                            LedgerFile.class,
                            JsonWriter.class,
                            LongSet.class,
                            CSVFormat.class,
                            DigestUtils.class,
                            AppendableOutputStream.class)
                    .map(c -> c.getProtectionDomain().getCodeSource().getLocation().getPath())
                    .distinct()
                    .collect(Collectors.joining(File.pathSeparator));

    /** The moment of the kill after the program's first line. */
    private static final int KEEPING_MICROS = 30_000;

    private static final int TABLES_MICROS = 600_000;

    @TempDir private Path folder;
    private Fabric fabric;
    private final Random random = new Random();

    /** Kills that came while an entry was in one file and not yet reported as kept. */
    private int between;

    @BeforeEach
    void copyExample() throws Exception {
        for (String name : new String[] {"only.design.json", "only.fabric.json", "board.json"}) {
            Files.copy(Path.of("fixtures/small", name), folder.resolve(name));
        }
        fabric = FabricReader.read(folder.resolve("only.fabric.json"), Progress.NONE);
    }

    @Test
    void aSampleOfKillsLosesNothing() throws Exception {
        killOften(SAMPLE);
    }

    @Test
    @Tag("slow")
    void manyKillsLoseNothing() throws Exception {
        killOften(MANY);
    }

    /** Every other kill falls on a program that keeps, the others on one that writes tables. */
    private void killOften(int kills) throws Exception {
        Map<String, Integer> now = new HashMap<>();
        for (int i = 0; i < kills; i++) {
            boolean keeps = i % 2 == 0;
            Map<String, Integer> reported =
                    keeps
                            ? runAndKill("keep", KEEPING_MICROS)
                            : runAndKill("tables", TABLES_MICROS);
            Map<String, Integer> found =
                    keeps
                            ? Map.of(
                                    "ledger",
                                    last(ledgerEntries()),
                                    "journal",
                                    last(journalEntries()))
                            : Map.of(
                                    "tables",
                                    KilledWriter.standing(folder.resolve("tables")),
                                    "imported",
                                    KilledWriter.standingImport(folder.resolve("imported")));
            found.forEach(
                    (what, number) -> {
                        int before = now.getOrDefault(what, 0);
                        check(what, number, reported.getOrDefault(what, before));
                        now.put(what, number);
                    });
        }
        assertThat(now.get("ledger")).isGreaterThanOrEqualTo(kills / 2);
        assertThat(now.get("tables")).isGreaterThanOrEqualTo(kills / 2);
        System.out.printf(
                "%d kills, %s, %d times between writing and telling%n", kills, now, between);
        try (Stream<Path> files = Files.list(folder)) {
            assertThat(files.map(Path::toString).filter(f -> f.matches(".*\\.(part|new)")).count())
                    .isLessThanOrEqualTo(4);
        }
    }

    private void check(String what, int found, int reported) {
        // An import has the number of its export, which may be killed before it.
        int most = what.equals("imported") ? Integer.MAX_VALUE : reported + 1;
        assertThat(found).as(what).isBetween(reported, most);
        between += found > reported ? 1 : 0;
    }

    /** Runs the program until a random moment after its first line; what it reported, by file. */
    private Map<String, Integer> runAndKill(String what, int micros) throws Exception {
        Process process =
                new ProcessBuilder(
                                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                                "-XX:TieredStopAtLevel=1",
                                "-XX:+UseSerialGC",
                                "-Xshare:auto",
                                "-cp",
                                CLASS_PATH,
                                KilledWriter.class.getName(),
                                folder.toString(),
                                what)
                        .redirectError(ProcessBuilder.Redirect.INHERIT)
                        .start();
        Map<String, Integer> reported = new HashMap<>();
        try (BufferedReader out = process.inputReader()) {
            hear(out.readLine(), reported);
            CompletableFuture<Void> rest = CompletableFuture.runAsync(() -> hearAll(out, reported));
            TimeUnit.MICROSECONDS.sleep(random.nextInt(micros));
            // By its handle: a process closes what is still to be read when it is destroyed.
            process.toHandle().destroyForcibly();
            process.waitFor();
            rest.join();
        }
        return reported;
    }

    private static void hearAll(BufferedReader out, Map<String, Integer> reported) {
        try {
            for (String line = out.readLine(); line != null; line = out.readLine()) {
                hear(line, reported);
            }
        } catch (IOException ended) {
            // The program has ended; what it reported before is read.
        }
    }

    /** Half a line may come last: it says nothing for certain. */
    private static void hear(String line, Map<String, Integer> reported) {
        assertThat(line).as("the program must start").isNotNull();
        String[] words = line.split(" ");
        if (words.length == 2 && words[1].matches("\\d+")) {
            reported.merge(words[0], Integer.parseInt(words[1]), Math::max);
        }
    }

    private List<LedgerEntry> ledgerEntries() throws BadInput {
        Path file = folder.resolve("bench.json");
        // The lock of the killed program is gone with it.
        LedgerFile.change(file, folder.resolve("only.design.json"), fabric, old -> old);
        return LedgerReader.read(file, fabric, Progress.NONE).entries();
    }

    private List<LedgerEntry> journalEntries() throws BadInput {
        try (Journal journal =
                Journal.open(folder.resolve("a.journal"), "d", fabric).orElseThrow()) {
            return journal.found();
        }
    }

    /** The number of the last entry; those before it must be there without a gap. */
    private static int last(List<LedgerEntry> entries) {
        int last = KilledWriter.last(entries);
        assertThat(entries).hasSize(Math.min(last, KilledWriter.MOST));
        for (int i = 0; i < entries.size(); i++) {
            assertThat(entries.get(i).unsigned())
                    .isEqualTo(JournalTest.entry(last - entries.size() + 1 + i));
        }
        return last;
    }
}
