package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Commands that write one file or folder at the same time: each does all of its work or says why
 * not, what stands there in the end is that of one of them, and nothing is left beside it.
 */
class TwoAtOnceTest {
    private static final int ROUNDS = 2;

    @TempDir private Path folder;
    private Path design;

    @BeforeEach
    void copyExample() throws Exception {
        design = CommandRun.copyExample(folder);
        Files.createDirectory(folder.resolve("tables"));
        try (Stream<Path> all = Files.list(Path.of("fixtures/tables"))) {
            for (Path each : all.filter(f -> f.toString().endsWith(".csv")).toList()) {
                Files.copy(each, folder.resolve("tables").resolve(each.getFileName()));
            }
        }
        Files.writeString(
                folder.resolve("c.vcd"),
                "$timescale 1ns $end $var wire 1 ! J2.1 $end $enddefinitions $end #0 0! #10 1! ");
        run("keep -d DESIGN -l kept.json -n pump/level/sample[1] -p J2.1");
        run("sheet -d DESIGN -l kept.json -o old.csv");
    }

    private void run(String words) {
        CommandRun run = CommandRun.of(words(words));
        assertThat(run.code()).as(run.err()).isZero();
    }

    private Object[] words(String text) {
        return Stream.of(text.split(" "))
                .map(w -> w.equals("DESIGN") ? design.toString() : w)
                .map(w -> w.matches("[a-z.]+") && isFile(w) ? path(w) : w)
                .toArray();
    }

    private static boolean isFile(String word) {
        return word.contains(".") || List.of("tables", "out", "read", "made").contains(word);
    }

    private String path(String name) {
        return folder.resolve(name).toString();
    }

    private List<CommandRun> atOnce(String... all) throws Exception {
        CyclicBarrier begin = new CyclicBarrier(all.length);
        ExecutorService hands = Executors.newFixedThreadPool(all.length);
        try {
            List<Future<CommandRun>> running = new ArrayList<>();
            for (String each : all) {
                Object[] words = words(each);
                running.add(
                        hands.submit(
                                () -> {
                                    begin.await();
                                    return CommandRun.of(words);
                                }));
            }
            List<CommandRun> runs = new ArrayList<>();
            for (Future<CommandRun> each : running) {
                runs.add(each.get());
            }
            return runs;
        } finally {
            hands.shutdownNow();
        }
    }

    private Map<String, String> files() throws Exception {
        Map<String, String> result = new TreeMap<>();
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path each : all.filter(Files::isRegularFile).toList()) {
                String text = new String(Files.readAllBytes(each), "ISO-8859-1");
                result.put(
                        folder.relativize(each).toString(),
                        text.replaceAll("\\d{4}-\\d\\d-\\d\\d[T ][\\d:]+Z?", "TIME"));
            }
        }
        return result;
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "apply -d DESIGN -l kept.json -o applied.json",
                "changes -d DESIGN -l kept.json -o changes.json",
                "sheet -d DESIGN -l kept.json -o sheet.html",
                "deskew c.vcd -s old.csv -o deskewed.vcd",
                "expand only.fabric.json -o listed.json.gz",
                "lead -d DESIGN -l kept.json --port out_J2.1 --name x",
                "export -d DESIGN --tables out --replace",
                "import --tables tables -o read --replace",
                "make --wires 5000 -o made --replace"
            })
    void theSameTwiceIsAsOnce(String words) throws Exception {
        run(words);
        Map<String, String> after = files();
        for (int i = 0; i < ROUNDS; i++) {
            List<CommandRun> runs = atOnce(words, words);
            assertThat(runs).anyMatch(r -> r.code() == 0);
            for (CommandRun run : runs) {
                assertThat(run.code()).as(run.err()).isIn(0, 2);
                assertThat(run.err().strip().lines().count()).isEqualTo(run.code() == 0 ? 0 : 1);
            }
            assertThat(files()).isEqualTo(after);
        }
    }

    /**
     * What is reported as done is there, in whatever order; who finds the ledger in use says so.
     */
    @Test
    void changesOfALedgerComeOneAfterTheOther() throws Exception {
        List<CommandRun> runs =
                atOnce(
                        "keep -d DESIGN -l kept.json -n clk12 -p J2.2",
                        "keep -d DESIGN -l kept.json -n clk12 -p J1.2",
                        "lead -d DESIGN -l kept.json --port out_J2.1 --name red");
        requireDoneOrInUse(runs);
        String kept = Files.readString(folder.resolve("kept.json"));
        List<String> marks = List.of("out_J2.2", "out_J1.2", "\"red\"");
        for (int i = 0; i < marks.size(); i++) {
            assertThat(kept.contains(marks.get(i))).isEqualTo(runs.get(i).code() == 0);
        }
        run("apply -d DESIGN -l kept.json -o applied.json");
        List<CommandRun> undone =
                atOnce("undo -d DESIGN -l kept.json", "undo -d DESIGN -l kept.json");
        long before = entries(kept);
        long taken = undone.stream().filter(r -> r.code() == 0).count();
        assertThat(entries(Files.readString(folder.resolve("kept.json"))))
                .isEqualTo(Math.max(0, before - taken));
        assertThat(folder.toFile().list()).noneMatch(n -> n.matches(".*\\.(part|lock|old|new)"));
    }

    private static long entries(String ledger) {
        return ledger.lines().filter(l -> l.contains("\"when\"")).count();
    }

    private static void requireDoneOrInUse(List<CommandRun> runs) {
        assertThat(runs).anyMatch(r -> r.code() == 0);
        for (CommandRun run : runs) {
            assertThat(run.code() == 0 || run.err().contains("found in use by process"))
                    .as(run.err())
                    .isTrue();
        }
    }
}
