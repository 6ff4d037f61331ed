package padward.docs;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIf;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import padward.cli.Padward;

/** The archives that {@code mvn -Parchives verify} makes; without them nothing is tested. */
@EnabledIf("made")
class ArchivesIT {
    private static final Path ARCHIVES = Path.of("target/archives");
    private static final long LARGEST = 30_000_000;

    @TempDir Path folder;

    static boolean made() {
        return Files.isDirectory(ARCHIVES);
    }

    @Test
    void eachHasTheNativePartsOfItsSystem() throws Exception {
        Map<String, String> endings =
                Map.of("linux", ".so", "win", ".dll", "mac", ".dylib", "mac-aarch64", ".dylib");
        for (Map.Entry<String, String> system : endings.entrySet()) {
            Path lib = ARCHIVES.resolve(system.getKey()).resolve("padward/lib");
            try (Stream<Path> jars = Files.list(lib)) {
                Path graphics =
                        jars.filter(j -> j.getFileName().toString().startsWith("javafx-graphics"))
                                .findFirst()
                                .orElseThrow();
                try (ZipFile jar = new ZipFile(graphics.toFile())) {
                    assertThat(jar.stream().map(ZipEntry::getName))
                            .as(system.getKey())
                            .anyMatch(n -> n.endsWith(system.getValue()));
                }
            }
        }
    }

    /** Windows has no manual pages and no such shell. */
    @Test
    void thoseForUnixHaveAManualPageForEachCommandAndCompletion() throws Exception {
        for (String system : List.of("linux", "mac", "mac-aarch64")) {
            Path share = ARCHIVES.resolve(system).resolve("padward/share");
            for (String command : Padward.commandLine().getSubcommands().keySet()) {
                assertThat(share.resolve("man/man1/padward-" + command + ".1"))
                        .content()
                        .startsWith(".TH PADWARD-");
                assertThat(share.resolve("completion/padward")).content().contains(command);
            }
        }
        assertThat(ARCHIVES.resolve("win/padward/share")).doesNotExist();
    }

    @Test
    void noneIsLarge() throws Exception {
        try (Stream<Path> files = Files.list(ARCHIVES)) {
            List<Path> archives = files.filter(Files::isRegularFile).toList();
            assertThat(archives).hasSize(4);
            for (Path archive : archives) {
                assertThat(Files.size(archive)).as("" + archive).isLessThan(LARGEST);
            }
        }
    }

    @Test
    @EnabledOnOs(OS.LINUX)
    void thatOfLinuxAnswersFromAnyFolderWithoutAHome() throws Exception {
        Path place = Files.createDirectories(folder.resolve("ä b"));
        try (Stream<Path> files = Files.list(ARCHIVES)) {
            Path archive =
                    files.filter(f -> f.toString().endsWith("-linux.tar.gz"))
                            .findFirst()
                            .orElseThrow();
            assertThat(run(List.of("tar", "xzf", archive.toAbsolutePath().toString()), place))
                    .isEqualTo("0 ");
        }
        Path link =
                Files.createSymbolicLink(folder.resolve("link"), place.resolve("padward/padward"));
        String design = Path.of("fixtures/small/only.design.json").toAbsolutePath().toString();
        assertThat(
                        run(
                                List.of(
                                        link.toString(),
                                        "ask",
                                        "-d",
                                        design,
                                        "-n",
                                        "pump/level/sample[1]",
                                        "-p",
                                        "J1-2"),
                                place))
                .startsWith("0 Open: pump/level/sample[1]");
    }

    /** Exit status and what was printed. */
    private static String run(List<String> words, Path in) throws Exception {
        ProcessBuilder builder = new ProcessBuilder(words).directory(in.toFile());
        builder.environment().keySet().removeAll(List.of("HOME", "XDG_CACHE_HOME"));
        builder.environment().put("JAVA_HOME", System.getProperty("java.home"));
        Process process = builder.redirectErrorStream(true).start();
        String printed = new String(process.getInputStream().readAllBytes(), UTF_8);
        return process.waitFor() + " " + printed;
    }
}
