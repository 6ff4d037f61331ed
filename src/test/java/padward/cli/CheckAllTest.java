package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.cli.output.FileCheck;

/** {@code check --all KIND} lists all things of one kind. */
class CheckAllTest {
    @TempDir private Path folder;
    private Path design;

    @BeforeEach
    void leaveOutThePackagePins() throws Exception {
        design = CommandRun.copyExample(folder);
        Path fabric = folder.resolve("only.fabric.json");
        String text = Files.readString(fabric);
        Files.writeString(fabric, text.replaceAll("\"packagePin\": \"A[1-5]\",", ""));
    }

    @Test
    void theReportNamesTheKindOfWhichItListsThree() {
        CommandRun run = CommandRun.of("check", design);
        assertThat(run.out())
                .contains("pads without a package pin: 5 (")
                .contains(", …; all: check --all unnamed-pins)");
    }

    @Test
    void allAreListedOneALineAndNothingElse() {
        CommandRun run = CommandRun.of("check", "--all", "unnamed-pins", design);
        assertThat(run.out().lines()).hasSize(5).allMatch(l -> l.startsWith("x"));
        assertThat(CommandRun.of("check", "--all", "cells-on-unusable", design).out()).isEmpty();
    }

    @Test
    void ofSeveralFilesEachBeginsWithItsName() {
        Path fabric = folder.resolve("only.fabric.json");
        CommandRun run = CommandRun.of("check", "--all", "unnamed-pins", design, fabric);
        List<String> lines = run.out().lines().toList();
        assertThat(lines).hasSize(12);
        assertThat(lines.get(0)).isEqualTo(design + ": 5");
        assertThat(lines.get(6)).isEqualTo(fabric + ": 5");
        assertThat(lines.subList(7, 12)).allMatch(l -> l.startsWith("  x"));
        CommandRun none = CommandRun.of("check", "--all", "cells-on-unusable", design, fabric);
        assertThat(none.out().lines()).containsExactly(design + ": 0", fabric + ": 0");
    }

    @Test
    void inJsonTheyStandBesideTheReport() {
        CommandRun run = CommandRun.of("check", "--json", "--all", "unnamed-pins", design);
        assertThat(
                        run.json()
                                .getAsJsonArray("files")
                                .get(0)
                                .getAsJsonObject()
                                .getAsJsonArray("all"))
                .hasSize(5);
    }

    @Test
    void aKindThatIsNoneIsRefusedWithTheKindsThatAre() {
        CommandRun run = CommandRun.of("check", "--all", "unnamed-pin", design);
        assertThat(run.code()).isEqualTo(2);
        assertThat(run.err()).contains("expected one of unrouted-nets, ").contains("unnamed-pins");
    }

    @Test
    void eachKindHasAWordOfItsOwn() {
        assertThat(new HashSet<>(FileCheck.kinds())).hasSameSizeAs(FileCheck.kinds());
    }
}
