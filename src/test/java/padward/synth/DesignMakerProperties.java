package padward.synth;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.Progress;
import padward.design.Design;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;
import padward.fabric.delay.Corner;
import padward.format.design.BoardWriter;
import padward.format.design.DesignReader;
import padward.format.design.DesignWriter;
import padward.format.fabric.PatternWriter;
import padward.route.bound.LowerBound;
import padward.route.cost.DelayOnlyCost;
import padward.route.search.PathSearch;
import padward.route.search.SearchOutcome;
import padward.route.search.SearchSources;

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

    @Test
    void longLinesMakeFarRoutesShortAndStandInTheFile(@TempDir Path folder) throws Exception {
        Path file =
                write(
                        DesignMaker.makeWithLongLines(120_000, 3, 0.2, Progress.NONE),
                        folder.resolve("long"));
        Fabric with = DesignReader.read(file, Progress.NONE).fabric();
        Fabric without = DesignMaker.make(120_000, 3, 0.2, Progress.NONE).design().fabric();
        assertThat(hopsAcross(with)).isLessThan(hopsAcross(without) / 2 + 3);
        int line = with.findVertex("x0y0/run28_e[1]");
        assertThat(with.tapTiles(line))
                .containsExactly(
                        with.tile(line),
                        with.tile(line) + 7,
                        with.tile(line) + 14,
                        with.tile(line) + 21,
                        with.headTile(line));
    }

    /** Edges of the quickest route from a wire in the south-west to one in the north-east. */
    private static int hopsAcross(Fabric fabric) {
        int side = fabric.columns() - 3;
        SearchOutcome outcome =
                new PathSearch(fabric)
                        .run(
                                SearchSources.at(fabric.findVertex("x1y1/run1_e[0]")),
                                fabric.findVertex("x" + side + "y" + side + "/run1_w[0]"),
                                Corner.SLOW,
                                new DelayOnlyCost(),
                                LowerBound.NONE,
                                Progress.NONE);
        return ((SearchOutcome.Found) outcome).path().size() - 1;
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
