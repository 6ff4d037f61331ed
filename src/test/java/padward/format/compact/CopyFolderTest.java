package padward.format.compact;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Where compact copies are, and what is in the folder. */
class CopyFolderTest {
    @TempDir private Path folder;

    private static Optional<Path> find(String given, String system, Map<String, String> variables) {
        return CopyFolder.find(
                        given.isEmpty() ? Optional.empty() : Optional.of(given),
                        Optional.empty(),
                        system,
                        "/home/ada",
                        variables)
                .map(CopyFolder::path);
    }

    @Test
    void itIsWhereTheSystemHasCaches() {
        assertThat(find("", "Linux", Map.of()))
                .contains(Path.of("/home/ada/.cache/padward/copies"));
        assertThat(find("", "Linux", Map.of("XDG_CACHE_HOME", "/fast")))
                .contains(Path.of("/fast/padward/copies"));
        assertThat(find("", "Linux", Map.of("XDG_CACHE_HOME", "not/absolute")))
                .contains(Path.of("/home/ada/.cache/padward/copies"));
        assertThat(find("", "Windows 11", Map.of("LOCALAPPDATA", "/local")))
                .contains(Path.of("/local/Padward/copies"));
        assertThat(find("", "Mac OS X", Map.of()))
                .contains(Path.of("/home/ada/Library/Caches/Padward/copies"));
    }

    @Test
    void itIsElsewhereOrOffWhenThatIsStated() {
        assertThat(find("/elsewhere", "Linux", Map.of())).contains(Path.of("/elsewhere"));
        assertThat(find("off", "Linux", Map.of())).isEmpty();
        assertThat(find("Off", "Linux", Map.of())).isEmpty();
        assertThat(find("no\0folder", "Linux", Map.of())).isEmpty();
    }

    @Test
    void filesOfOthersAreLeftAlone() throws Exception {
        String copy = "0".repeat(64) + "-1.fabric";
        Path own = Files.writeString(folder.resolve(copy), "some");
        Path left = Files.writeString(folder.resolve(copy + ".12-0123456789ab.part"), "some");
        Path other = Files.writeString(folder.resolve("notes.fabric"), "of somebody");
        Path inside = Files.createDirectory(folder.resolve("1".repeat(64) + "-1.fabric"));
        CopyFolder copies = new CopyFolder(folder);
        copies.limitTo(4);
        assertThat(own).exists();
        assertThat(left).exists(); // may be in the making
        copies.limitTo(3);
        assertThat(own).doesNotExist();
        Files.writeString(own, "some");
        assertThat(copies.clear()).isEqualTo(1);
        assertThat(own).doesNotExist();
        assertThat(left).doesNotExist();
        assertThat(other).exists();
        assertThat(inside).exists();
    }
}
