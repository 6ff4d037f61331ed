package padward.fabric.pattern;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.BadInput;
import padward.base.Progress;
import padward.fabric.Fabric;
import padward.fabric.SiteView;
import padward.format.fabric.FabricReader;
import padward.format.fabric.FabricWriter;

/** A pattern names wires and sites that are not to be used. */
class UnusablePatternTest {
    private static Path with(Path folder, String unusable) throws Exception {
        String text = Files.readString(Path.of("fixtures/small/only.fabric.json"));
        int at = text.indexOf("\"grid\"");
        return Files.writeString(
                folder.resolve("f.json"),
                text.substring(0, at) + "\"unusable\": " + unusable + ", " + text.substring(at));
    }

    @Test
    void namedWiresAndSitesAreUnusableInBothForms(@TempDir Path folder) throws Exception {
        Path file =
                with(folder, "{\"wires\": [\"x3y2/run1_e[0]\"], \"sites\": [\"x3y3/cell[1]\"]}");
        Fabric pattern = FabricReader.read(file, Progress.NONE);
        Path explicit = folder.resolve("explicit.json");
        FabricWriter.write(pattern, explicit);
        for (Fabric fabric : new Fabric[] {pattern, FabricReader.read(explicit, Progress.NONE)}) {
            SiteView site = fabric.site(fabric.findSite("x3y3/cell[1]"));
            assertThat(fabric.unusable().isSite(site.id())).isTrue();
            assertThat(fabric.unusable().isVertex(site.firstPin())).isTrue();
            assertThat(fabric.unusable().isVertex(fabric.findVertex("x3y2/run1_e[0]"))).isTrue();
            assertThat(fabric.unusable().vertices().cardinality())
                    .isEqualTo(1 + site.pins().size());
        }
    }

    @Test
    void aNameThatIsNotThereIsAFault(@TempDir Path folder) throws Exception {
        Path wire = with(folder, "{\"wires\": [\"x3y2/run9_e[0]\"]}");
        assertThatThrownBy(() -> FabricReader.read(wire, Progress.NONE))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("$.unusable.wires[0]")
                .hasMessageContaining("the full name of a wire");
        Path site = with(folder, "{\"sites\": [\"x3y3/cell[99]\"]}");
        assertThatThrownBy(() -> FabricReader.read(site, Progress.NONE))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("$.unusable.sites[0]");
        Path twice = with(folder, "{\"sites\": [\"x3y3/cell[1]\", \"x3y3/cell[1]\"]}");
        assertThatThrownBy(() -> FabricReader.read(twice, Progress.NONE))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("again");
    }
}
