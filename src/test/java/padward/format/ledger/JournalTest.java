package padward.format.ledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.zip.CRC32C;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.BadInput;
import padward.base.Progress;
import padward.change.Edit;
import padward.change.LedgerEntry;
import padward.design.RouteTree;
import padward.fabric.Fabric;
import padward.format.fabric.FabricReader;

/** Changes that are kept but not saved survive the program, wherever it stops. */
public class JournalTest {
    private static final Edit.CellEnd PIN = new Edit.CellEnd("c", "in[0]");

    private static Fabric fabric;

    @TempDir private Path folder;

    @BeforeAll
    static void read() throws BadInput {
        fabric = FabricReader.read(Path.of("fixtures/small/only.fabric.json"), Progress.NONE);
    }

    public static LedgerEntry entry(int number) {
        List<Edit> edits =
                List.of(
                        new Edit.RemoveNet("net é “" + number + "”"),
                        new Edit.BreakOut("n", "p", "pad", "", List.of(1, 2, 3)),
                        new Edit.AddCell("c", "lut4", "s", Map.of("table", "16h8000", "a", "b")),
                        new Edit.AddNet("m", PIN, List.of(PIN), RouteTree.of(number), true),
                        new Edit.AddSink("m", PIN, List.of(1, 2)),
                        new Edit.AddInput("i", "q", "pad", List.of(PIN), RouteTree.of(2)));
        return new LedgerEntry("now", "me", "", "n" + number, "p", edits);
    }

    /** The same with digests, for ledgers; nothing checks these. */
    public static LedgerEntry signed(int number) {
        return entry(number).signed("-", "-");
    }

    private Journal open() throws BadInput {
        return Journal.open(folder.resolve("a.journal"), "d", fabric).orElseThrow();
    }

    /**
     * Every length to which the file can have been cut while it was written gives back a state that
     * was recorded, and each state that was wholly written is given back.
     */
    @Test
    void cutAnywhereItGivesBackWhatWasRecorded() throws Exception {
        Random random = new Random(7);
        List<List<LedgerEntry>> states = new ArrayList<>(List.of(List.of()));
        List<Long> lengths = new ArrayList<>();
        Path file = folder.resolve("a.journal");
        byte[] bytes;
        try (Journal journal = open()) {
            lengths.add(Files.size(file));
            List<LedgerEntry> now = new ArrayList<>();
            for (int i = 0; i < 6; i++) {
                if (!now.isEmpty() && random.nextInt(3) == 0) {
                    now.remove(random.nextInt(now.size()));
                } else {
                    now.add(entry(i));
                }
                journal.record(now);
                states.add(List.copyOf(now));
                lengths.add(Files.size(file));
            }
            bytes = Files.readAllBytes(file);
        }
        for (int length = 0; length <= bytes.length; length++) {
            byte[] cut = Arrays.copyOf(bytes, length);
            List<LedgerEntry> given = JournalLines.read(cut, "cut", fabric).entries();
            int whole = 0;
            // All but its end is enough: every byte of what was kept is there.
            while (whole + 1 < lengths.size() && lengths.get(whole + 1) <= length + 1) {
                whole++;
            }
            assertThat(given).isEqualTo(states.get(whole));
            // Garbage instead of the rest, as a machine without power may leave it.
            byte[] spoilt = Arrays.copyOf(cut, bytes.length);
            int before = length == bytes.length - 1 ? whole : 0;
            while (before + 1 < lengths.size() && lengths.get(before + 1) <= length) {
                before++;
            }
            assertThat(JournalLines.read(spoilt, "spoilt", fabric).entries())
                    .isEqualTo(states.get(before));
        }
    }

    /** Keeps, undoes and keeps again, a line for each; what was recorded after each line. */
    private List<List<LedgerEntry>> recordSome(Journal journal) throws BadInput {
        List<List<LedgerEntry>> states = new ArrayList<>();
        for (List<Integer> numbers :
                List.of(
                        List.of(1),
                        List.of(1, 2),
                        List.of(1, 2, 3),
                        List.of(1, 2),
                        List.of(1, 2, 4),
                        List.of(1, 5),
                        List.of(1, 5, 6),
                        List.of(1, 5, 6, 7))) {
            List<LedgerEntry> now = numbers.stream().map(JournalTest::entry).toList();
            journal.record(now);
            states.add(now);
        }
        return states;
    }

    /**
     * Each single wrong bit loses the entries of its line at most; and no entry comes back that was
     * undone in another line.
     */
    @Test
    void aWrongBitLosesAtMostItsLine() throws Exception {
        byte[] bytes;
        List<List<LedgerEntry>> states;
        try (Journal journal = open()) {
            states = recordSome(journal);
            bytes = Files.readAllBytes(folder.resolve("a.journal"));
        }
        List<LedgerEntry> last = states.get(states.size() - 1);
        Random random = new Random(3);
        int line = 1;
        for (int at = 0; at < bytes.length; at++) {
            byte[] damaged = bytes.clone();
            damaged[at] ^= (byte) (1 << random.nextInt(8));
            JournalLines.State state = JournalLines.read(damaged, "damaged", fabric);
            assertThat(state.digest()).isEqualTo("d");
            assertThat(state.damaged()).as("byte %d", at).contains(line);
            List<LedgerEntry> expected = new ArrayList<>(last);
            // Lines 1 and 2 are the head; entries 1, 5, 6, 7 are in lines 3, 8, 9, 10.
            if (line == 3 || line >= 8) {
                LedgerEntry lost = last.get(line == 3 ? 0 : line - 7);
                // The last line's loss goes back to what was kept before.
                assertThat(state.entries())
                        .as("byte %d", at)
                        .containsAll(expected.stream().filter(e -> !e.equals(lost)).toList())
                        .isSubsetOf(expected);
            } else {
                assertThat(state.entries()).as("byte %d", at).isEqualTo(expected);
            }
            line += bytes[at] == '\n' ? 1 : 0;
        }
    }

    /** Of a whole line nothing is left; no number of bytes stops the reading. */
    @Test
    void aSpoiltLineOfAnyLengthIsReported() throws Exception {
        String line =
                new String(JournalLines.head("d"), StandardCharsets.UTF_8).lines().toList().get(0);
        for (String spoilt :
                List.of(
                        "",
                        "x",
                        "\u00e9\u00e9\u00e9\u00e9x",
                        "123456789",
                        "12345678 ",
                        "0 {".repeat(50))) {
            String text = line + "\n" + spoilt + "\n" + line + "\n";
            Files.writeString(folder.resolve("a.journal"), text);
            try (Journal journal = open()) {
                assertThat(journal.found()).isEmpty();
                assertThat(journal.damage().orElseThrow().place()).isEqualTo("line 2");
            }
        }
    }

    @Test
    void aDamagedJournalIsPutAsideBeforeItIsRewritten() throws Exception {
        Path file = folder.resolve("n.journal");
        Journals journals = new Journals(folder);
        try (Journal journal = journals.open("n", "d", fabric).journal()) {
            recordSome(journal);
        }
        byte[] bytes = Files.readAllBytes(file);
        bytes[bytes.length / 2] ^= 1;
        Files.write(file, bytes);
        Journals.Begun begun = journals.open("n", "d", fabric);
        try (Journal journal = begun.journal()) {
            assertThat(journal.found()).hasSizeGreaterThanOrEqualTo(3);
            Path aside = folder.resolve("n.journal.1.old");
            assertThat(begun.fault().orElseThrow().getMessage())
                    .contains("line")
                    .contains("all others are shown")
                    .contains(aside.toString());
            assertThat(Files.readAllBytes(aside)).isEqualTo(bytes);
        }
        // Told once.
        Journals.Begun again = journals.open("n", "d", fabric);
        assertThat(again.fault()).isEmpty();
        again.journal().close();
    }

    @Test
    void whereAllEntriesAreDamagedTheFileIsPutAsideToo() throws Exception {
        Path file = folder.resolve("n.journal");
        Journals journals = new Journals(folder);
        try (Journal journal = journals.open("n", "d", fabric).journal()) {
            journal.record(List.of(entry(1)));
        }
        byte[] bytes = Files.readAllBytes(file);
        bytes[bytes.length - 20] ^= 1;
        Files.write(file, bytes);
        Journals.Begun begun = journals.open("n", "d", fabric);
        begun.journal().close();
        assertThat(begun.fault()).isPresent();
        assertThat(folder.resolve("n.journal.1.old")).hasBinaryContent(bytes);
        assertThat(file).doesNotExist();
    }

    @Test
    void whatWasKeptIsFoundAgain() throws Exception {
        try (Journal first = open()) {
            assertThat(first.found()).isEmpty();
            first.record(List.of(entry(1), entry(2)));
        }
        try (Journal second = open()) {
            assertThat(second.found()).containsExactly(entry(1), entry(2));
            second.record(List.of(entry(1), entry(2), entry(3)));
        }
        try (Journal third = open()) {
            assertThat(third.found()).hasSize(3);
            third.record(List.of());
        }
        assertThat(folder).isEmptyDirectory();
    }

    @Test
    void oneProgramAtATimeAndEachWindowItsOwn() throws Exception {
        Journals journals = new Journals(folder.resolve("state"));
        try (Journal one = journals.open("n", "d", fabric).journal()) {
            one.record(List.of(entry(1)));
            try (Journal other = journals.open("n", "d", fabric).journal()) {
                assertThat(other.found()).isEmpty();
                other.record(List.of(entry(2)));
            }
            // The first one has entries, and nobody has it open.
            try (Journal again = journals.open("n", "d", fabric).journal()) {
                assertThat(again.found()).containsExactly(entry(2));
            }
            assertThat(Journal.open(folder.resolve("state/n.journal"), "d", fabric)).isEmpty();
        }
    }

    @Test
    void aJournalOfAnotherVersionOfTheFileIsRenamedNotDeleted() throws Exception {
        Journals journals = new Journals(folder);
        try (Journal one = journals.open("n", "d", fabric).journal()) {
            one.record(List.of(entry(1)));
        }
        byte[] bytes = Files.readAllBytes(folder.resolve("n.journal"));
        Journals.Begun begun = journals.open("n", "other", fabric);
        try (Journal other = begun.journal()) {
            assertThat(other.found()).isEmpty();
            assertThat(begun.setAside().orElseThrow().getMessage()).contains("they are in");
        }
        assertThat(Files.readAllBytes(folder.resolve("n.journal.1.old"))).isEqualTo(bytes);
    }

    /** A few characters can name millions of entries, again and again. */
    @Test
    void entriesThatStayAreCountedBeforeTheyAreListed() throws Exception {
        String run = "[1,900000]";
        String json =
                "{\"stay\":[" + (run + ",").repeat(5000) + run + "],\"first\":1,\"entries\":[]}";
        CRC32C crc = new CRC32C();
        crc.update(json.getBytes(StandardCharsets.UTF_8));
        String line = String.format("%08x %s%n", (int) crc.getValue(), json);
        Path file = folder.resolve("a.journal");
        try (Journal journal = open()) {
            journal.record(List.of(entry(1)));
        }
        Files.writeString(file, Files.readString(file) + line);
        BadInput fault = catchThrowableOfType(BadInput.class, this::open);
        assertThat(fault.expected()).contains("fewer entries");
    }
}
