package padward.base;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A lock leaves no file behind, and touches none that is not its own. */
@SuppressWarnings("try") // The resources are only to be closed.
class OwnerLockTest {
    @TempDir private Path folder;

    private Path file() {
        return folder.resolve("bench.json");
    }

    private Path lockFile() {
        return folder.resolve("bench.json" + OwnerLock.ENDING);
    }

    private void assertRefused(String found) {
        assertThatThrownBy(() -> OwnerLock.tryTake(file()))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining(lockFile().toString())
                .hasMessageContaining(found);
    }

    @Test
    void aLinkIsNotFollowed() throws Exception {
        Path own = Files.writeString(folder.resolve("own.txt"), "a user's own words");
        Files.createSymbolicLink(lockFile(), own);
        assertRefused("a link");
        assertThat(OwnerLock.owner(file())).isEmpty();
        assertThat(lockFile()).isSymbolicLink();
        assertThat(own).hasContent("a user's own words");
    }

    @Test
    void aLinkToNothingMakesNothing() throws Exception {
        Path elsewhere = folder.resolve("elsewhere");
        Files.createSymbolicLink(lockFile(), elsewhere);
        assertRefused("a link");
        assertThat(elsewhere).doesNotExist();
        assertThat(lockFile()).isSymbolicLink();
    }

    @Test
    void aFileOfTheUserIsLeftAsItIs() throws Exception {
        for (String text : new String[] {"{}", "Lock of another program\n", "L\n"}) {
            Files.writeString(lockFile(), text);
            assertRefused("a file of another kind");
            assertThat(lockFile()).hasContent(text);
        }
    }

    @Test
    void aFolderIsLeftAsItIs() throws Exception {
        Files.createDirectory(lockFile());
        assertRefused("a folder");
        assertThat(lockFile()).isDirectory();
    }

    @Test
    void filesThatEndAsLocksOftenDoAreNobodysBusiness() throws Exception {
        Path own = Files.writeString(folder.resolve("bench.json.lock"), "versions of parts");
        try (OwnerLock lock = OwnerLock.tryTake(file()).orElseThrow()) {
            assertThat(OwnerLock.owner(file()).orElseThrow()).startsWith("process ");
        }
        assertThat(own).hasContent("versions of parts");
        assertThat(lockFile()).doesNotExist();
    }

    @Test
    void whatAKilledProgramLeftBehindDoesNotStopTheNext() throws Exception {
        for (String text : new String[] {"", "Lock of", "Lock of Padward\nprocess 1, me\n7\n"}) {
            Files.writeString(lockFile(), text);
            OwnerLock.tryTake(file()).orElseThrow().close();
            assertThat(lockFile()).doesNotExist();
        }
    }

    @Test
    void whatWasPutInItsPlaceIsNotDeleted() throws Exception {
        OwnerLock lock = OwnerLock.tryTake(file()).orElseThrow();
        Files.delete(lockFile());
        Files.writeString(lockFile(), "a user's own");
        lock.close();
        assertThat(lockFile()).hasContent("a user's own");
    }

    @Test
    void oneAtATime() throws Exception {
        try (OwnerLock lock = OwnerLock.take(file(), "a bench")) {
            assertThat(OwnerLock.tryTake(file())).isEmpty();
            assertThatThrownBy(() -> OwnerLock.take(file(), "a bench of one's own"))
                    .hasMessageContaining("expected a bench of one's own, found in use by process");
        }
        OwnerLock.take(file(), "a bench").close();
    }
}
