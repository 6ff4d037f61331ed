package padward.docs;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

/**
 * What the launcher for Unix keeps of the archives of classes, with a stand-in for Java that writes
 * an archive where it is told to, and ends as the variable {@code STATUS} says.
 */
@DisabledOnOs(OS.WINDOWS)
class LauncherTest {
    private static final String STAND_IN =
            """
            #!/bin/sh
            echo $$ >"$PLACE/pid"
            for word; do
                case $word in
                -XX:ArchiveClassesAtExit=*) echo classes >"${word#*=}" ;;
                -XX:SharedArchiveFile=*) echo shared ;;
                esac
            done
            [ "$1" ] && [ "$READ" ] && cat
            trap 'echo ended >"$PLACE/ended"; exit 143' TERM HUP
            n=0
            while [ "$LONG" ] && [ $n -lt 200 ]; do sleep 0.1; n=$((n + 1)); done
            exit ${STATUS:-0}
            """;

    @TempDir Path folder;
    private Path cache;

    @BeforeEach
    void makeJava() throws IOException {
        Path java = Files.createDirectories(folder.resolve("java/bin")).resolve("java");
        Files.writeString(java, STAND_IN);
        java.toFile().setExecutable(true);
        Path program = Files.createDirectories(folder.resolve("program"));
        Files.copy(Path.of("src/launcher/padward"), program.resolve("padward"));
        Path jar = Files.createFile(program.resolve("padward.jar"));
        Files.setLastModifiedTime(jar, FileTime.from(Instant.now().minusSeconds(60)));
        cache = folder.resolve("cache/padward");
    }

    private ProcessBuilder launcher(String... words) {
        List<String> all = new ArrayList<>();
        all.add("/bin/sh");
        all.add(folder.resolve("program/padward").toString());
        all.addAll(List.of(words));
        ProcessBuilder builder = new ProcessBuilder(all).redirectErrorStream(true);
        builder.environment().put("JAVA_HOME", "" + folder.resolve("java"));
        builder.environment().put("XDG_CACHE_HOME", "" + folder.resolve("cache"));
        builder.environment().put("PLACE", "" + folder);
        return builder;
    }

    /** Exit status and what was printed. */
    private static String run(ProcessBuilder builder) throws Exception {
        Process process = builder.start();
        String printed = new String(process.getInputStream().readAllBytes(), UTF_8);
        return process.waitFor() + " " + printed.strip();
    }

    private List<String> archives() throws IOException {
        if (!Files.isDirectory(cache)) {
            return List.of();
        }
        try (Stream<Path> files = Files.list(cache)) {
            return files.map(f -> f.getFileName().toString()).sorted().toList();
        }
    }

    /** It would serve later ones for good, with the few classes that it has used. */
    @Test
    void noArchiveIsWrittenByACommandThatUsesFewClasses() throws Exception {
        for (List<String> words :
                List.of(
                        List.of("--version"),
                        List.of("--help"),
                        List.of("help", "ask"),
                        List.of("survy"),
                        List.of("ask", "--help"),
                        List.of("window", "-h"))) {
            assertThat(run(launcher(words.toArray(String[]::new)))).isEqualTo("0 ");
            assertThat(archives()).as("" + words).isEmpty();
        }
    }

    @Test
    void noArchiveIsWrittenByWhatFails() throws Exception {
        ProcessBuilder failing = launcher("ask", "--design", "missing.json");
        failing.environment().put("STATUS", "2");
        assertThat(run(failing)).isEqualTo("2 ");
        assertThat(archives()).isEmpty();
    }

    /** A blocked question, status 1, is an answer too. */
    @Test
    void laterCommandsStartFromTheArchiveOfTheFirst() throws Exception {
        ProcessBuilder blocked = launcher("ask", "--pad", "J2.1");
        blocked.environment().put("STATUS", "1");
        assertThat(run(blocked)).isEqualTo("1 ");
        assertThat(archives()).singleElement().asString().endsWith("-ask.jsa");
        assertThat(run(launcher("ask"))).isEqualTo("0 shared");
        assertThat(run(launcher("survey"))).isEqualTo("0 ");
        assertThat(run(launcher("--version"))).isEqualTo("0 shared");
        assertThat(run(launcher("nets"))).isEqualTo("0 shared");
        assertThat(run(launcher())).isEqualTo("0 ");
        assertThat(run(launcher("window"))).isEqualTo("0 shared");
        assertThat(archives()).hasSize(3).allMatch(n -> n.endsWith(".jsa"));
    }

    /** As it would from the terminal, or from a file. */
    @Test
    void theCommandThatWritesAnArchiveReadsItsInput() throws Exception {
        Path input = Files.writeString(folder.resolve("input"), "a question");
        ProcessBuilder reading = launcher("ask", "-").redirectInput(input.toFile());
        reading.environment().put("READ", "yes");
        assertThat(run(reading)).isEqualTo("0 a question");
    }

    /**
     * The signals to try: a shell cannot heed one that was ignored when it started, as INT and HUP
     * are in what runs in the background, and so in all that these tests start there.
     */
    private static List<String> heededSignals() throws Exception {
        Path status = Path.of("/proc/self/status");
        if (!Files.exists(status)) {
            return List.of("TERM");
        }
        String mask =
                Files.readAllLines(status).stream()
                        .filter(l -> l.startsWith("SigIgn:"))
                        .findFirst()
                        .orElseThrow()
                        .replaceFirst("SigIgn:\\s*", "");
        long ignored = Long.parseUnsignedLong(mask, 16);
        List<String> heeded = new ArrayList<>(List.of("TERM"));
        if ((ignored & 1L << 1) == 0) {
            heeded.add("INT");
        }
        if ((ignored & 1L) == 0) {
            heeded.add("HUP");
        }
        return heeded;
    }

    /** Whoever stops the launcher's process stops the program. */
    @Test
    void aSignalReachesTheProgramAndLeavesNothing() throws Exception {
        for (String signal : heededSignals()) {
            Files.deleteIfExists(folder.resolve("pid"));
            Files.deleteIfExists(folder.resolve("ended"));
            ProcessBuilder lasting = launcher("survey");
            lasting.environment().put("LONG", "yes");
            Process process = lasting.redirectOutput(folder.resolve("out").toFile()).start();
            awaitFile(folder.resolve("pid"));
            Thread.sleep(200); // it may still be writing the archive
            assertThat(archives()).as("while it runs").hasSize(1);
            new ProcessBuilder("/bin/sh", "-c", "kill -" + signal + " " + process.pid())
                    .inheritIO()
                    .start()
                    .waitFor();
            assertThat(process.waitFor(20, TimeUnit.SECONDS)).as(signal).isTrue();
            assertThat(process.exitValue())
                    .isEqualTo(signal.equals("TERM") ? 143 : signal.equals("INT") ? 130 : 129);
            assertThat(folder.resolve("ended")).exists();
            assertThat(archives()).as(signal).isEmpty();
        }
    }

    @Test
    void whatKilledProcessesLeftIsRemoved() throws Exception {
        Files.createDirectories(cache);
        Process gone = new ProcessBuilder("/bin/sh", "-c", "exit 0").start();
        gone.waitFor();
        Files.writeString(cache.resolve("1234-commands.jsa." + gone.pid()), "part");
        String running = "1234-commands.jsa." + ProcessHandle.current().pid();
        Files.writeString(cache.resolve(running), "part of one that runs");
        assertThat(run(launcher("survey"))).isEqualTo("0 ");
        assertThat(archives()).hasSize(2).contains(running);
    }

    private static void awaitFile(Path file) throws Exception {
        for (int round = 0; round < 100 && !Files.exists(file); round++) {
            Thread.sleep(100);
        }
        assertThat(file).exists();
    }
}
