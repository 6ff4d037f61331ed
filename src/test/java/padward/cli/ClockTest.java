package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A clock that goes backwards, or files from the future, change only what is shown. */
class ClockTest {
    private static final String LATER = "2199-12-31T23:59:59+14:00";

    @TempDir private Path folder;
    private Path design;
    private Path ledger;

    @BeforeEach
    void keepInTheFuture() throws Exception {
        design = CommandRun.copyExample(folder);
        ledger = folder.resolve("l.json");
        keep("pump/level/sample[1]", "J2.1");
        Files.writeString(
                ledger,
                Files.readString(ledger)
                        .replaceAll("\"when\": *\"[^\"]*\"", "\"when\": \"" + LATER + "\""));
        assertThat(Files.readString(ledger)).contains(LATER);
        try (Stream<Path> all = Files.list(folder)) {
            for (Path each : all.toList()) {
                Files.setLastModifiedTime(each, FileTime.fromMillis(32_503_680_000_000L));
            }
        }
    }

    private CommandRun keep(String net, String pad) {
        CommandRun run = CommandRun.of("keep", "-d", design, "-n", net, "-p", pad, "-l", ledger);
        assertThat(run.code()).as(run.err()).isZero();
        return run;
    }

    @Test
    void entriesStayInTheOrderInWhichTheyWereKept() throws Exception {
        assertThat(keep("clk12", "J2.2").out()).contains("Kept as entry 2 of ");
        String kept = Files.readString(ledger);
        assertThat(kept.indexOf(LATER)).isBetween(0, kept.indexOf("clk12"));
        Path copy = folder.resolve("copy.json");
        CommandRun apply = CommandRun.of("apply", "-d", design, "-l", ledger, "-o", copy);
        assertThat(apply.code()).as(apply.err()).isZero();
        Path page = folder.resolve("s.csv");
        CommandRun sheet = CommandRun.of("sheet", "-d", design, "-l", ledger, "-o", page);
        assertThat(sheet.code()).as(sheet.err()).isZero();
        List<String> lines = Files.readAllLines(page);
        assertThat(lines.get(1)).contains("sample[1]");
        assertThat(lines.get(2)).contains("clk12");
        CommandRun undo = CommandRun.of("undo", "-d", design, "-l", ledger);
        assertThat(undo.out()).startsWith("Undone: entry 2, ");
        assertThat(Files.readString(ledger)).contains(LATER).doesNotContain("clk12");
    }

    @Test
    void aFileFromTheFutureIsReplacedAndNothingIsLeft() throws Exception {
        keep("clk12", "J2.2");
        assertThat(Files.getLastModifiedTime(ledger))
                .isLessThan(FileTime.fromMillis(32_503_680_000_000L));
        assertThat(folder.toFile().list())
                .containsExactlyInAnyOrder(
                        "only.design.json", "only.fabric.json", "board.json", "l.json");
    }
}
