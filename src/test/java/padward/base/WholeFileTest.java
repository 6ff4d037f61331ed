package padward.base;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assumptions.assumeThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.nio.file.attribute.UserPrincipal;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import java.util.zip.GZIPOutputStream;
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
    void theWriterMayCloseTheStream() throws Exception {
        Path file = folder.resolve("a.gz");
        WholeFile.write(file, out -> new GZIPOutputStream(out).close());
        assertThat(file).isNotEmptyFile();
    }

    @Test
    void aFolderIsReported() {
        assertThatThrownBy(() -> WholeFile.writeText(folder, "new"))
                .hasMessageContaining("the name of a file, found a folder");
    }

    @Test
    void aReplacedFileKeepsItsPermissions() throws Exception {
        Path file = Files.writeString(folder.resolve("a.json"), "old");
        assumeThat(Files.getFileStore(file).supportsFileAttributeView("posix")).isTrue();
        for (String rights : new String[] {"rw-------", "rw-rw-rw-", "rwxr-x---"}) {
            Set<PosixFilePermission> wanted = PosixFilePermissions.fromString(rights);
            Files.setPosixFilePermissions(file, wanted);
            UserPrincipal owner = Files.getOwner(file);
            WholeFile.write(
                    file,
                    out -> {
                        out.write('n');
                        // Nor can others read what is not in place yet.
                        assertThat(wanted).containsAll(Files.getPosixFilePermissions(part()));
                    });
            assertThat(Files.getPosixFilePermissions(file)).isEqualTo(wanted);
            assertThat(Files.getOwner(file)).isEqualTo(owner);
            assertThat(file).hasContent("n");
        }
    }

    private Path part() throws IOException {
        try (Stream<Path> all = Files.list(folder)) {
            return all.filter(f -> f.toString().endsWith(".part")).findAny().orElseThrow();
        }
    }

    @Test
    void aWriteProtectedFileIsNotReplaced() throws Exception {
        Path file = Files.writeString(folder.resolve("a.json"), "old");
        assumeThat(file.toFile().setWritable(false)).isTrue();
        assumeThat(Files.isWritable(file)).as("the superuser writes everything").isFalse();
        assertThatThrownBy(() -> WholeFile.writeText(file, "new"))
                .hasMessageContaining("write-protected");
        assertThat(file).hasContent("old");
    }

    /** Two programs in two containers have one process number. */
    @Test
    void whatAnotherProgramOfTheSameNumberWritesIsLeftAlone() throws Exception {
        Path file = folder.resolve("a.json");
        String simple = "a.json." + ProcessHandle.current().pid() + ".part";
        Path others = Files.writeString(folder.resolve(simple), "half");
        WholeFile.write(
                file,
                out -> {
                    WholeFile.writeText(file, "between");
                    out.write('n');
                });
        assertThat(file).hasContent("n");
        assertThat(others).hasContent("half");
    }

    @Test
    void onlyTemporaryFilesOfThisProgramAreCleared() throws Exception {
        Path file = Files.writeString(folder.resolve("a.json"), "old");
        Files.writeString(TemporaryName.PART.nextTo(file), "half");
        for (String name : new String[] {"a.json.part", "a.json.7.part", "b.json.1-2.part"}) {
            Files.writeString(folder.resolve(name), "a user's");
        }
        WholeFile.clearLeftovers(file);
        assertThat(names())
                .containsExactly("a.json", "a.json.7.part", "a.json.part", "b.json.1-2.part");
    }

    /** A file that is being written is not taken for one that was left. */
    @Test
    void whatAKilledProgramLeftIsClearedByTheNextWrite() throws Exception {
        Path file = folder.resolve("a.json");
        Path left = folder.resolve("a.json.1-0123456789ab.part");
        Files.writeString(left, "half");
        WholeFile.write(
                file,
                out -> {
                    WholeFile.writeText(file, "within");
                    out.write('x');
                });
        assertThat(names()).containsExactly("a.json");
        assertThat(file).hasContent("x");
    }
}
