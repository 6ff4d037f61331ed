package padward.format.source;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class UserFolderTest {
    /** XDG Base Directory Specification 0.8, section 3; Windows and macOS: common practice. */
    @Test
    void theFolderFollowsTheSystem() {
        Optional<String> none = Optional.empty();
        assertThat(UserFolder.path(none, "Linux", "/home/u", Map.of()))
                .isEqualTo(Path.of("/home/u/.config/padward"));
        assertThat(UserFolder.path(none, "Linux", "/home/u", Map.of("XDG_CONFIG_HOME", "/c")))
                .isEqualTo(Path.of("/c/padward"));
        assertThat(UserFolder.path(none, "Linux", "/home/u", Map.of("XDG_CONFIG_HOME", "rel")))
                .isEqualTo(Path.of("/home/u/.config/padward"));
        assertThat(UserFolder.path(none, "Mac OS X", "/Users/u", Map.of()))
                .isEqualTo(Path.of("/Users/u/Library/Application Support/Padward"));
        assertThat(UserFolder.path(none, "Windows 11", "/u", Map.of("APPDATA", "/r")))
                .isEqualTo(Path.of("/r/Padward"));
        assertThat(UserFolder.path(Optional.of("/x"), "Linux", "/u", Map.of()))
                .isEqualTo(Path.of("/x"));
        assertThat(UserFolder.path().toString()).contains("test-settings");
    }
}
