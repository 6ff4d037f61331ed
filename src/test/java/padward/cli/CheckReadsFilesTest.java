package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.Progress;
import padward.design.Design;
import padward.format.compact.CopyFolder;
import padward.format.design.BoardWriter;
import padward.format.design.DesignReader;
import padward.format.design.DesignWriter;
import padward.format.fabric.FabricWriter;
import padward.synth.DesignMaker;

/** {@code check} judges files, not the compact copies of what they contained. */
class CheckReadsFilesTest {
    @TempDir private Path folder;

    @Test
    void copiesAreNeitherReadNorKept() throws Exception {
        CopyFolder used = CopyFolder.find().orElseThrow();
        used.clear();
        Design made = DesignMaker.makeIrregular(20_000, 4, 0.9, Progress.NONE).design();
        Path fabric = folder.resolve("fabric.json");
        Path design = folder.resolve("design.json");
        FabricWriter.write(made.fabric(), fabric);
        BoardWriter.write(made.board(), made.fabric(), folder.resolve("board.json"));
        DesignWriter.write(made, design, "fabric.json", "board.json");
        CommandRun without = CommandRun.of("check", design, fabric);
        assertThat(without.code()).isZero();
        assertThat(used.copies()).isEmpty();
        DesignReader.read(design, Progress.NONE);
        assertThat(used.copies()).hasSize(2);
        // each reading of a copy sets its time
        FileTime longAgo = FileTime.fromMillis(1_000_000_000_000L);
        for (CopyFolder.Entry copy : used.copies()) {
            Files.setLastModifiedTime(copy.path(), longAgo);
        }
        assertThat(CommandRun.of("check", design, fabric)).isEqualTo(without);
        assertThat(used.copies()).hasSize(2).allMatch(c -> c.used().equals(longAgo));
        used.clear();
    }
}
