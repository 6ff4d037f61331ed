package padward.synth;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.Progress;
import padward.design.Design;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;
import padward.format.design.BoardWriter;
import padward.format.design.DesignReader;
import padward.format.design.DesignWriter;
import padward.format.fabric.PatternWriter;

/** Properties of everything that is made: size, legality (the file reader checks), equal seeds. */
class DesignMakerProperties {
    @ParameterizedTest
    @CsvSource({"8000, 1, 0.6", "8000, 2, 0.9", "12000, 3, 0.3", "40000, 4, 0.7", "8000, 5, 0"})
    void filesAreSoundAndTheSameForTheSameSeed(
            int wires, long seed, double used, @TempDir Path folder) throws Exception {
        Path one = write(DesignMaker.make(wires, seed, used, Progress.NONE), folder.resolve("one"));
        Path two = write(DesignMaker.make(wires, seed, used, Progress.NONE), folder.resolve("two"));
        assertThat(one).hasSameBinaryContentAs(two);

        Design read = DesignReader.read(one, Progress.NONE);
        long count = wireCount(read.fabric());
        assertThat(count).isBetween((long) (wires * 0.8), (long) (wires * 1.2));
        if (used > 0) {
            assertThat(read.nets().size()).isGreaterThan(50);
            assertThat(read.ports()).isNotEmpty();
        }
        assertThat(read.note()).contains("Invented");
    }

    private static long wireCount(Fabric fabric) {
        long count = 0;
        for (int v = 0; v < fabric.vertexCount(); v++) {
            count += fabric.kind(v) == VertexKind.WIRE ? 1 : 0;
        }
        return count;
    }

    private static Path write(MadeDesign made, Path folder) throws Exception {
        Files.createDirectories(folder);
        Design design = made.design();
        PatternWriter.write(made.spec().orElseThrow(), folder.resolve("fabric.json"));
        BoardWriter.write(design.board(), design.fabric(), folder.resolve("board.json"));
        Path file = folder.resolve("design.json");
        DesignWriter.write(design, file, "fabric.json", "board.json");
        return file;
    }
}
