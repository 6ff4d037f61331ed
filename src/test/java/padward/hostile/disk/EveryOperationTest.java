package padward.hostile.disk;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** See {@link EveryOperation}; here some commands, and all of them in the slow run. */
class EveryOperationTest {
    @TempDir private Path folder;

    private void run(String... commands) throws Exception {
        List<String> words =
                new ArrayList<>(
                        List.of(
                                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                                "-XX:TieredStopAtLevel=1",
                                "-XX:+UseSerialGC",
                                "-Djava.awt.headless=true",
                                "-Djava.nio.file.spi.DefaultFileSystemProvider="
                                        + FaultyDisk.class.getName(),
                                "-cp",
                                System.getProperty("java.class.path"),
                                EveryOperation.class.getName(),
                                folder.toString()));
        words.addAll(List.of(commands));
        Process process = new ProcessBuilder(words).redirectErrorStream(true).start();
        String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertThat(process.waitFor()).as(said).isZero();
        assertThat(said).contains("0 failures").containsPattern("[1-9]\\d* operations");
    }

    @Test
    void filesAreAsBeforeOrAsAfterWhereverTheProgramIsStopped() throws Exception {
        run("keep", "apply", "import", "journal", "session", "copies");
    }

    @Test
    @Tag("slow")
    void soAreTheFilesOfAllCommands() throws Exception {
        run();
    }
}
