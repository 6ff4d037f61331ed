package padward.format;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Design;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.SiteView;
import padward.fabric.pattern.PatternSpec;
import padward.format.design.BoardWriter;
import padward.format.design.Demo;
import padward.format.design.DesignReader;
import padward.format.design.DesignWriter;
import padward.format.fabric.FabricReader;
import padward.format.fabric.FabricWriter;
import padward.format.fabric.PatternWriter;
import padward.format.source.Source;

/** What is written is read again as the same thing. */
class WrittenFilesTest {
    private static final Path SMALL = Path.of("fixtures/small");

    @TempDir private Path folder;

    /** Everything that a fabric says, by names, in a fixed order: numbers may differ. */
    private static TreeSet<String> linesOf(Fabric fabric) {
        TreeSet<String> lines = new TreeSet<>();
        EdgeCursor edges = fabric.edgesOut();
        for (int v = 0; v < fabric.vertexCount(); v++) {
            String name = fabric.vertexName(v);
            assertThat(fabric.findVertex(name)).isEqualTo(v);
            lines.add(
                    String.join(
                            " ",
                            "vertex",
                            name,
                            fabric.kind(v).name(),
                            fabric.tileName(fabric.tile(v)),
                            fabric.tileName(fabric.headTile(v)),
                            fabric.wireKind(v),
                            siteName(fabric, fabric.siteOf(v))));
            edges.reset(v);
            while (edges.next()) {
                String to = fabric.vertexName(edges.other());
                lines.add("edge " + name + " " + to + " " + edges.kind() + " " + edges.delay());
            }
        }
        for (int s = 0; s < fabric.siteCount(); s++) {
            SiteView site = fabric.site(s);
            lines.add(
                    "site "
                            + site.name()
                            + site.kind()
                            + site.tile()
                            + site.accepts()
                            + site.pins());
        }
        for (Pad pad : fabric.pads()) {
            lines.add(
                    String.join(
                            " ",
                            "pad",
                            pad.name(),
                            fabric.tileName(pad.tile()),
                            pad.packagePin(),
                            pad.bank(),
                            pad.directions().name(),
                            siteName(fabric, pad.dataSite()),
                            siteName(fabric, pad.enableSite()),
                            pad.defaultSetting()));
        }
        for (int tile = 0; tile < fabric.tileCount(); tile++) {
            lines.add("tile " + fabric.tileName(tile) + " " + fabric.tileType(tile));
        }
        return lines;
    }

    private static String siteName(Fabric fabric, int site) {
        return site == Fabric.NOTHING ? "-" : fabric.site(site).name();
    }

    @ParameterizedTest
    @ValueSource(strings = {"explicit.json", "explicit.json.gz"})
    void aPatternWrittenOutIsTheSameFabric(String name) throws Exception {
        for (String fixture : List.of("only.fabric.json", "around.fabric.json")) {
            Fabric pattern = FabricReader.read(SMALL.resolve(fixture), Progress.NONE);
            Path file = folder.resolve(name);
            FabricWriter.write(pattern, file);
            Fabric explicit = FabricReader.read(file, Progress.NONE);
            assertThat(explicit.info()).isEqualTo(pattern.info());
            assertThat(linesOf(explicit)).isEqualTo(linesOf(pattern));
        }
    }

    @Test
    void aPatternIsWrittenAsItWasRead() throws Exception {
        Source source = Source.of(SMALL.resolve("around.fabric.json"));
        PatternSpec spec = FabricReader.readPattern(source, Progress.NONE);
        Path file = folder.resolve("pattern.json");
        PatternWriter.write(spec, file);
        assertThat(FabricReader.readPattern(Source.of(file), Progress.NONE)).isEqualTo(spec);
    }

    @ParameterizedTest
    @ValueSource(strings = {"only", "around"})
    void aDesignIsWrittenAsItWasRead(String name) throws Exception {
        Design design = DesignReader.read(SMALL.resolve(name + ".design.json"), Progress.NONE);
        String fabricFile = name + ".fabric.json";
        Files.copy(SMALL.resolve(fabricFile), folder.resolve(fabricFile));
        BoardWriter.write(design.board(), design.fabric(), folder.resolve("b.json"));
        Path file = folder.resolve("d.json");
        DesignWriter.write(design, file, fabricFile, "b.json");
        Design again = DesignReader.read(file, Progress.NONE);
        assertThat(again.name()).isEqualTo(design.name());
        assertThat(again.note()).isEqualTo(design.note());
        assertThat(again.board()).isEqualTo(design.board());
        assertThat(again.cells()).isEqualTo(design.cells());
        assertThat(again.ports()).isEqualTo(design.ports());
        assertThat(again.nets()).isEqualTo(design.nets());
        byte[] first = Files.readAllBytes(file);
        DesignWriter.write(again, file, fabricFile, "b.json");
        assertThat(Files.readAllBytes(file)).isEqualTo(first);
    }

    /** The members of the outermost object in the opposite order mean the same. */
    @Test
    void theOrderOfMembersDoesNotMatter() throws Exception {
        Fabric fabric = FabricReader.read(SMALL.resolve("only.fabric.json"), Progress.NONE);
        Path file = folder.resolve("explicit.json");
        FabricWriter.write(fabric, file);
        turnAround(file);
        assertThat(linesOf(FabricReader.read(file, Progress.NONE))).isEqualTo(linesOf(fabric));
        for (String name : List.of("only.fabric.json", "board.json", "only.design.json")) {
            Files.copy(SMALL.resolve(name), folder.resolve(name));
            turnAround(folder.resolve(name));
        }
        Design turned = DesignReader.read(folder.resolve("only.design.json"), Progress.NONE);
        Design plain = DesignReader.read(SMALL.resolve("only.design.json"), Progress.NONE);
        assertThat(turned.nets()).isEqualTo(plain.nets());
    }

    private static void turnAround(Path file) throws Exception {
        var object = JsonParser.parseString(Files.readString(file)).getAsJsonObject();
        List<String> names = new ArrayList<>(object.keySet());
        Collections.reverse(names);
        var turned = new JsonObject();
        names.forEach(n -> turned.add(n, object.get(n)));
        Files.writeString(file, turned.toString());
    }

    @Test
    void aFileThatCannotBeWrittenLeavesNothingBehind() throws Exception {
        Design demo = Demo.open();
        Path missing = folder.resolve("no/such/folder.json");
        assertThatThrownBy(() -> DesignWriter.write(demo, missing, "f", ""))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("no such folder");
        Path occupied = folder.resolve("taken");
        Files.createDirectories(occupied.resolve("inside"));
        assertThatThrownBy(() -> DesignWriter.write(demo, occupied, "f", ""))
                .isInstanceOf(BadInput.class);
        try (Stream<Path> left = Files.list(folder)) {
            assertThat(left).containsExactly(occupied);
        }
    }
}
