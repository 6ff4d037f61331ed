package padward.format.json;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import padward.base.BadInput;

class FileKindTest {
    @ParameterizedTest
    @CsvSource({
        "small/only.fabric.json, FABRIC",
        "small/only.design.json, DESIGN",
        "small/board.json, BOARD",
        "lessons/01-boxes.json, LESSON",
        "netlists/larch.mapping.json, MAPPING"
    })
    void eachFileHasItsKind(String file, FileKind kind) throws Exception {
        assertThat(FileKind.of(Path.of("fixtures", file))).isEqualTo(kind);
    }

    @ParameterizedTest
    @EnumSource
    void everyKindIsKnownByItsFormat(FileKind kind, @TempDir Path folder) throws Exception {
        Path file = folder.resolve("file.json");
        String format = "padward-" + kind.name().toLowerCase(Locale.ROOT) + "/1";
        Files.writeString(file, "{\"format\": \"" + format + "\", \"form\": \"pattern\"}");
        assertThat(FileKind.of(file)).isEqualTo(kind);
    }

    @Test
    void anythingElseIsBadInput(@TempDir Path folder) throws Exception {
        Path file = folder.resolve("file.json");
        Files.writeString(file, "{\"format\": \"padward-lessons/1\"}");
        assertThatThrownBy(() -> FileKind.of(file))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("padward-lesson/1");
    }
}
