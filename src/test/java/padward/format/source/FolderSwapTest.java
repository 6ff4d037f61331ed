package padward.format.source;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.BadInput;
import padward.base.OwnerLock;
import padward.base.TemporaryName;

/** Whatever fails while a folder is replaced, the old one is in place or the message says where. */
class FolderSwapTest {
    @TempDir private Path folder;
    private Path target;

    @BeforeEach
    void makeOld() throws IOException {
        target = Files.createDirectory(folder.resolve("tables"));
        Files.writeString(target.resolve("a.csv"), "old");
    }

    private static boolean isOurs(String name) {
        return name.endsWith(".csv");
    }

    private static void writeNew(Path into) throws IOException {
        Files.writeString(into.resolve("a.csv"), "new");
    }

    private void write() throws BadInput {
        FolderSwap.write(target, FolderSwapTest::isOurs, FolderSwapTest::writeNew);
    }

    private List<Path> all() throws IOException {
        try (Stream<Path> files = Files.list(folder)) {
            return files.sorted().toList();
        }
    }

    /** Moves that fail from a certain one on. */
    private static FolderSwap.Move failingFrom(int first) {
        int[] count = {0};
        return (from, to) -> {
            count[0]++;
            if (count[0] >= first && count[0] < first + 2) {
                throw new FileAlreadyExistsException(to.toString());
            }
            Files.move(from, to);
        };
    }

    private void writeWithFailing(int first) throws BadInput {
        FolderSwap.write(
                target, FolderSwapTest::isOurs, FolderSwapTest::writeNew, failingFrom(first));
    }

    @Test
    void theNewTakesThePlaceOfTheOld() throws Exception {
        write();
        assertThat(target.resolve("a.csv")).hasContent("new");
        assertThat(all()).containsExactly(target);
    }

    @Test
    void whereTheOldCannotBeMovedItStays() throws Exception {
        assertThatThrownBy(() -> writeWithFailing(1)).isInstanceOf(BadInput.class);
        assertThat(target.resolve("a.csv")).hasContent("old");
        assertThat(all()).containsExactly(target);
    }

    /** Something else may get the name between the two moves. */
    @Test
    void whereBothMovesFailTheMessageSaysWhereOldAndNewAre() throws Exception {
        assertThatThrownBy(() -> writeWithFailing(2))
                .isInstanceOfSatisfying(
                        BadInput.class,
                        fault -> {
                            Path old = TemporaryName.OLD.findAll(target).get(0);
                            Path written = TemporaryName.NEW.findAll(target).get(0);
                            assertThat(old.resolve("a.csv")).hasContent("old");
                            assertThat(written.resolve("a.csv")).hasContent("new");
                            assertThat(fault.found())
                                    .contains("what stood there is in " + old)
                                    .contains("what was written is in " + written);
                        });
        assertThat(all()).hasSize(2);
    }

    /** As a kill between the two moves leaves it. */
    @Test
    void theNextThatWritesPutsTheOldBackFirst() throws Exception {
        Files.move(target, TemporaryName.OLD.nextTo(target));
        writeNew(Files.createDirectory(TemporaryName.PART.nextTo(target)));
        assertThat(FolderSwap.leftBehind(target)).hasSize(1);
        BadInput fault = new BadInput("b", "", "something", "nothing");
        assertThatThrownBy(
                        () ->
                                FolderSwap.write(
                                        target,
                                        FolderSwapTest::isOurs,
                                        into -> {
                                            throw fault;
                                        }))
                .isSameAs(fault);
        assertThat(target.resolve("a.csv")).hasContent("old");
        assertThat(all()).containsExactly(target);
    }

    @Test
    void ofSeveralOldOnesTheUserChooses() throws Exception {
        Files.move(target, TemporaryName.OLD.nextTo(target));
        Files.createDirectory(TemporaryName.OLD.nextTo(target));
        List<Path> before = all();
        assertThatThrownBy(this::write)
                .hasMessageContaining("rename the right one")
                .hasMessageContaining(before.get(0).toString());
        assertThat(all()).isEqualTo(before);
    }

    @Test
    void anOldOneBesideWhatStandsThereIsLeftAlone() throws Exception {
        Path old = Files.createDirectory(TemporaryName.OLD.nextTo(target));
        Files.writeString(old.resolve("a.csv"), "older");
        write();
        assertThat(target.resolve("a.csv")).hasContent("new");
        assertThat(old.resolve("a.csv")).hasContent("older");
    }

    @Test
    void aLinkStillLeadsToTheFolder() throws Exception {
        Path link = Files.createSymbolicLink(folder.resolve("link"), Path.of("tables"));
        FolderSwap.write(link, FolderSwapTest::isOurs, FolderSwapTest::writeNew);
        assertThat(link).isSymbolicLink();
        assertThat(target.resolve("a.csv")).hasContent("new");
    }

    @SuppressWarnings("try") // The resource is only to be closed.
    @Test
    void oneProgramAtATime() throws Exception {
        try (OwnerLock lock = OwnerLock.tryTake(target).orElseThrow()) {
            assertThatThrownBy(this::write).hasMessageContaining("in use by process");
        }
        assertThat(target.resolve("a.csv")).hasContent("old");
    }
}
