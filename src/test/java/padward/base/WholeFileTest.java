package padward.base;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assumptions.assumeThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Files are written completely or not at all, under any kind of name. */
class WholeFileTest {
    @TempDir private Path folder;

    private List<String> names() throws IOException {
        try (Stream<Path> all = Files.list(folder)) {
            return all.map(f -> f.getFileName().toString()).sorted().toList();
        }
    }

    @Test
    void aLinkStillLeadsToTheFile() throws Exception {
        Path there = Files.createDirectory(folder.resolve("there"));
        Path file = Files.writeString(there.resolve("a.json"), "old");
        Path link = Files.createSymbolicLink(folder.resolve("link"), Path.of("there/a.json"));
        Path second = Files.createSymbolicLink(folder.resolve("second"), Path.of("link"));
        WholeFile.writeText(second, "new");
        assertThat(second).isSymbolicLink();
        assertThat(link).isSymbolicLink();
        assertThat(file).hasContent("new");
        assertThat(names()).containsExactly("link", "second", "there");
    }

    @Test
    void aLinkToNothingMakesTheFileItLeadsTo() throws Exception {
        Path link = Files.createSymbolicLink(folder.resolve("link"), Path.of("new.json"));
        WholeFile.writeText(link, "new");
        assertThat(folder.resolve("new.json")).hasContent("new");
    }

    @Test
    void linksThatFormALoopAreReported() throws Exception {
        Path one = Files.createSymbolicLink(folder.resolve("one"), Path.of("two"));
        Files.createSymbolicLink(folder.resolve("two"), Path.of("one"));
        assertThatThrownBy(() -> WholeFile.writeText(one, "new"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("links that form a loop");
    }

    @Test
    void aDeviceIsNeverReplaced() throws Exception {
        Path device = Path.of("/dev/null");
        assumeThat(device).exists();
        Path link = Files.createSymbolicLink(folder.resolve("link"), device);
        WholeFile.writeText(link, "new");
        assertThat(link).isSymbolicLink();
        assertThat(Files.isRegularFile(link)).isFalse();
    }

    @Test
    void nothingIsLeftWhereTheContentsCannotBeMade() throws Exception {
        Path file = Files.writeString(folder.resolve("a.json"), "old");
        BadInput fault = new BadInput("b", "", "something", "nothing");
        assertThatThrownBy(
                        () ->
                                WholeFile.write(
                                        file,
                                        out -> {
                                            out.write(1);
                                            throw fault;
                                        }))
                .isSameAs(fault);
        assertThat(file).hasContent("old");
        assertThat(names()).containsExactly("a.json");
    }

    @Test
    void aFolderIsReported() {
        assertThatThrownBy(() -> WholeFile.writeText(folder, "new"))
                .hasMessageContaining("the name of a file, found a folder");
    }
}
