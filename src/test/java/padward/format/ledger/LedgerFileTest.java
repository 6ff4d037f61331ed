package padward.format.ledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowable;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.google.common.jimfs.Configuration;
import com.google.common.jimfs.Jimfs;
import java.io.BufferedReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystem;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Stream;
import org.apache.commons.codec.digest.DigestUtils;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.BadInput;
import padward.base.OwnerLock;
import padward.base.Progress;
import padward.change.Ledger;
import padward.design.Design;
import padward.fabric.Fabric;
import padward.format.KillTest;
import padward.format.SteadyWriter;
import padward.format.design.DesignReader;
import padward.format.design.DesignWriter;
import padward.format.design.Digest;
import padward.format.source.Source;

/** A ledger's file on full disks, in folders that cannot be written, with many users. */
class LedgerFileTest {
    private static final Path DESIGN = Path.of("fixtures/small/only.design.json");
    private static Design design;
    private static Fabric fabric;

    @BeforeAll
    static void read() throws BadInput {
        design = DesignReader.read(DESIGN, Progress.NONE);
        fabric = design.fabric();
    }

    private static Ledger addTo(Path file, int number) throws BadInput {
        return LedgerFile.change(file, DESIGN, fabric, old -> old.with(JournalTest.signed(number)));
    }

    @Test
    void aRouteWithoutStepsIsAFault() {
        String text =
                """
                {"format": "padward-ledger/1", "design": "d", "sha256": "0", "entries": [
                {"when": "w", "who": "a", "net": "n", "pad": "p", "before": "0", "after": "0",
                "edits": [{"do": "route-net", "net": "n", "from": "x"}]}]}
                """;
        assertThatThrownBy(
                        () ->
                                LedgerReader.readAlone(
                                        new Source.OfText("l.json", text), Progress.NONE))
                .hasMessage(
                        "l.json, at $.entries[0].edits[0]: expected member \"steps\", found none");
    }

    /** Two names of one ledger are one ledger, with one lock. */
    @SuppressWarnings("try") // The resource is only to be closed.
    @Test
    void aLinkStillLeadsToTheLedger(@TempDir Path folder) throws Exception {
        Path file = folder.resolve("bench.json");
        Path link = Files.createSymbolicLink(folder.resolve("link.json"), Path.of("bench.json"));
        addTo(link, 1);
        addTo(file, 2);
        addTo(link, 3);
        assertThat(link).isSymbolicLink();
        assertThat(LedgerReader.read(file, fabric, Progress.NONE).entries()).hasSize(3);
        try (OwnerLock used = OwnerLock.tryTake(file).orElseThrow()) {
            assertThat(catchThrowable(() -> addTo(link, 4))).hasMessageContaining("in use");
        }
    }

    /** A small file system in memory, filled to the brim. */
    @Test
    void aFullDiskIsReportedAndLosesNothing() throws Exception {
        Configuration small =
                Configuration.unix().toBuilder().setMaxSize(64 << 10).setBlockSize(512).build();
        try (FileSystem disk = Jimfs.newFileSystem(small)) {
            Path file = disk.getPath("/work/bench.json");
            BadInput fault = null;
            int kept = 0;
            for (int i = 1; fault == null && i < 1000; i++) {
                try {
                    addTo(file, i);
                    kept = i;
                } catch (BadInput full) {
                    fault = full;
                }
            }
            assertThat(fault).isNotNull();
            assertThat(fault.getMessage()).contains("space on the disk").contains("none left");
            assertThat(LedgerReader.read(file, fabric, Progress.NONE).entries()).hasSize(kept);
            try (Stream<Path> left = Files.list(file.getParent())) {
                assertThat(left).containsExactly(file);
            }
            Path journal = disk.getPath("/work/a.journal");
            assertThat(catchThrowable(() -> fill(journal)))
                    .isInstanceOf(BadInput.class)
                    .hasMessageContaining("space on the disk");
        }
    }

    private static void fill(Path file) throws BadInput {
        try (Journal journal = Journal.open(file, "d", fabric).orElseThrow()) {
            for (int i = 1; i < 10_000; i++) {
                journal.record(List.of(JournalTest.entry(i)));
            }
        }
    }

    /** The system's own folder of kernel objects takes no files, not even from the superuser. */
    @Test
    void aFolderThatAcceptsNoFilesIsReported() {
        Path folder = Path.of("/sys");
        assumeTrue(Files.isDirectory(folder));
        Path file = folder.resolve("bench.json");
        assertThat(catchThrowable(() -> addTo(file, 1)))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining(file.toString())
                .hasMessageMatching(".*(permission|only be read).*");
        assertThat(catchThrowable(() -> addTo(Path.of("/no/such/bench.json"), 1)))
                .hasMessageContaining("no such folder");
    }

    /** Many at once: each change is either made, on top of all others, or refused as in use. */
    @Test
    void manyThreadsLoseNoEntry(@TempDir Path folder) throws Exception {
        Path file = folder.resolve("bench.json");
        ExecutorService hands = Executors.newFixedThreadPool(6);
        try {
            Callable<Integer> hand =
                    () -> {
                        int made = 0;
                        for (int i = 0; i < 40; i++) {
                            try {
                                addTo(file, i);
                                made++;
                            } catch (BadInput inUse) {
                                assertThat(inUse.found()).startsWith("in use");
                            }
                        }
                        return made;
                    };
            int made = 0;
            for (Future<Integer> one : hands.invokeAll(Collections.nCopies(6, hand))) {
                made += one.get();
            }
            assertThat(LedgerReader.read(file, fabric, Progress.NONE).entries()).hasSize(made);
            assertThat(made).isPositive();
        } finally {
            hands.shutdownNow();
        }
    }

    /** The same with several programs: the lock is the system's, not this program's alone. */
    @Test
    void manyProgramsLoseNoEntry(@TempDir Path folder) throws Exception {
        for (String name : List.of("only.design.json", "only.fabric.json")) {
            Files.copy(Path.of("fixtures/small", name), folder.resolve(name));
        }
        List<Process> programs = new ArrayList<>();
        for (int i = 0; i < 3; i++) {
            programs.add(
                    new ProcessBuilder(
                                    Path.of(System.getProperty("java.home"), "bin", "java")
                                            .toString(),
                                    "-XX:TieredStopAtLevel=1",
                                    "-XX:+UseSerialGC",
                                    "-cp",
                                    KillTest.CLASS_PATH,
                                    SteadyWriter.class.getName(),
                                    folder.toString(),
                                    "25")
                            .redirectError(ProcessBuilder.Redirect.INHERIT)
                            .start());
        }
        int made = 0;
        for (Process program : programs) {
            try (BufferedReader out = program.inputReader()) {
                made += Integer.parseInt(out.readLine());
            }
        }
        assertThat(made).isEqualTo(75);
        assertThat(LedgerReader.read(folder.resolve("bench.json"), fabric, Progress.NONE).entries())
                .hasSize(made);
    }

    @Test
    void theOwnerIsReported(@TempDir Path folder) throws Exception {
        Path file = folder.resolve("bench.json");
        addTo(file, 1);
        try (OwnerLock lock = OwnerLock.tryTake(file).orElseThrow()) {
            assertThat(catchThrowable(() -> addTo(file, 2)))
                    .hasMessageContaining("process " + ProcessHandle.current().pid());
            assertThat(lock).isNotNull();
        }
        assertThat(addTo(file, 2).entries()).hasSize(2);
    }

    /** SHA-256 against a general library's. */
    @Test
    void digestsAreTheGeneralOnes(@TempDir Path folder) throws Exception {
        Random random = new Random(11);
        for (int length : new int[] {0, 1, 55, 56, 64, 65_535, 65_536, 200_001}) {
            byte[] bytes = new byte[length];
            random.nextBytes(bytes);
            Path file = Files.write(folder.resolve("f" + length), bytes);
            assertThat(Digest.of(file)).isEqualTo(DigestUtils.sha256Hex(bytes));
        }
        Path written = folder.resolve("d.json");
        DesignWriter.write(design, written, "fabric", "");
        String text = Files.readString(written, StandardCharsets.UTF_8);
        assertThat(Digest.of(design)).isEqualTo(DigestUtils.sha256Hex(text));
    }
}
