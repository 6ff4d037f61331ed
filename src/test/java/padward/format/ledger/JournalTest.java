package padward.format.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.BadInput;
import padward.base.Progress;
import padward.change.Edit;
import padward.change.LedgerEntry;
import padward.fabric.Fabric;
import padward.format.fabric.FabricReader;

/** Changes that are kept but not saved survive the program, wherever it stops. */
public class JournalTest {
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
                        new Edit.BreakOut("n", "p", "pad", "", List.of(1, 2, 3)));
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
            while (whole + 1 < lengths.size() && lengths.get(whole + 1) <= length) {
                whole++;
            }
            assertThat(given).isEqualTo(states.get(whole));
            // Garbage instead of the rest, as a machine without power may leave it.
            byte[] spoilt = Arrays.copyOf(cut, bytes.length);
            assertThat(JournalLines.read(spoilt, "spoilt", fabric).entries())
                    .isEqualTo(states.get(whole));
        }
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
}
