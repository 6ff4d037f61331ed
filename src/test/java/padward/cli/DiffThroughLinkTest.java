package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A design that is named once through a link and once without is one design. */
class DiffThroughLinkTest {
    @TempDir private Path folder;

    @Test
    void whatTheEntriesCostIsToldAllTheSame() throws Exception {
        Path real = Files.createDirectory(folder.resolve("real"));
        Path design = CommandRun.copyExample(real);
        Path linked =
                Files.createSymbolicLink(folder.resolve("linked"), real)
                        .resolve(design.getFileName());
        Path ledger = folder.resolve("l.json");
        CommandRun keep =
                CommandRun.of("keep", "-d", design, "-n", "clk12", "-p", "J2.2", "-l", ledger);
        assertThat(keep.code()).as(keep.err()).isZero();
        CommandRun plain = CommandRun.of("diff", design, ledger);
        assertThat(plain.out()).contains("What it costs: ");
        CommandRun through = CommandRun.of("diff", design, ledger, "--design", linked);
        assertThat(through).isEqualTo(plain);
    }
}
