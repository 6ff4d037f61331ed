package padward.ui.model;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.Progress;
import padward.change.Edit;
import padward.change.LedgerEntry;
import padward.design.Design;
import padward.format.design.DesignReader;

/** What was kept in the window is shown again, or put aside; the design opens in any case. */
class JournalStoreTest {
    private static final Path FILE = Path.of("fixtures/small/only.design.json");

    @TempDir private Path folder;
    private Design design;

    @BeforeEach
    void read() throws Exception {
        design = DesignReader.read(FILE, Progress.NONE);
    }

    private void keep(LedgerEntry... entries) throws Exception {
        try (JournalStore store = new JournalStore(folder)) {
            store.save(FILE, kept(entries));
        }
    }

    /** Whether they fit the design or not. */
    private KeptChanges kept(LedgerEntry... entries) {
        KeptChanges all = KeptChanges.of(design);
        for (LedgerEntry entry : entries) {
            all = all.with(entry, design);
        }
        return all;
    }

    private LedgerEntry removal(String net) {
        return new LedgerEntry("now", "me", "", "n", "p", List.of(new Edit.RemoveNet(net)));
    }

    private List<Path> files(String ending) throws IOException {
        try (Stream<Path> all = Files.list(folder)) {
            return all.filter(f -> f.toString().endsWith(ending)).toList();
        }
    }

    @Test
    void damageLosesOneChangeAndIsReported() throws Exception {
        String first = design.nets().get(0).name();
        String second = design.nets().get(1).name();
        keep(removal(first), removal(second));
        Path journal = files(".journal").get(0);
        byte[] bytes = Files.readAllBytes(journal);
        bytes[bytes.length - 9] ^= 4;
        Files.write(journal, bytes);
        try (JournalStore store = new JournalStore(folder)) {
            KeptChangeStore.Found found = store.find(FILE, design, Progress.NONE);
            assertThat(found.fault()).isPresent();
            assertThat(files(".old")).hasSize(1);
        }
    }

    /** What does not fit the design is not replaced by what is kept after it. */
    @Test
    void changesThatDoNotFitArePutAside() throws Exception {
        keep(removal("no such net"));
        String first = design.nets().get(0).name();
        try (JournalStore store = new JournalStore(folder)) {
            KeptChangeStore.Found found = store.find(FILE, design, Progress.NONE);
            assertThat(found.kept()).isEmpty();
            assertThat(found.fault().orElseThrow().getMessage())
                    .contains("they are in " + files(".old").get(0));
            store.save(FILE, kept(removal(first)));
        }
        assertThat(files(".old").get(0)).content().contains("no such net");
        try (JournalStore store = new JournalStore(folder)) {
            KeptChangeStore.Found found = store.find(FILE, design, Progress.NONE);
            assertThat(found.kept().orElseThrow().entries()).containsExactly(removal(first));
            assertThat(found.fault()).isEmpty();
        }
    }

    /** As when the journal could not be read at first: it was never shown. */
    @Test
    void whatWasNeverShownIsNotReplaced() throws Exception {
        String first = design.nets().get(0).name();
        String second = design.nets().get(1).name();
        keep(removal(first));
        keep(removal(second));
        assertThat(files(".old").get(0)).content().contains(first);
        try (JournalStore store = new JournalStore(folder)) {
            KeptChangeStore.Found found = store.find(FILE, design, Progress.NONE);
            assertThat(found.kept().orElseThrow().entries()).containsExactly(removal(second));
        }
    }
}
