package padward.ui.paint;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.design.Design;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.format.design.DesignReader;
import padward.ui.design.OpenDesign;
import padward.ui.draw.Palette;
import padward.ui.draw.SvgSurface;
import padward.ui.draw.Viewport;

/** What a large fabric shows from far away. */
class StructurePainterTest {
    private static String picture(String file, double scale) throws Exception {
        Design design = DesignReader.read(Path.of(file), Progress.NONE);
        Fabric fabric = design.fabric();
        Viewport view = new Viewport(900, 700, fabric.columns() / 2.0, fabric.rows() / 2.0, scale);
        OpenDesign opened = new OpenDesign(design);
        SvgSurface out = new SvgSurface(900, 700, "map");
        MapPicture.paint(MapPicture.plain(opened, view, Palette.LIGHT), out);
        String text = out.finish();
        for (Pad pad : fabric.pads()) {
            assertThat(text.contains(">bank " + pad.bank() + "<"))
                    .isEqualTo(fabric.columns() > 24 && scale < 20);
        }
        return text;
    }

    @Test
    void banksAndAScale() throws Exception {
        String far = picture("fixtures/workbench/design.json.gz", 8);
        assertThat(far).contains(">10 tiles<");
        assertThat(picture("fixtures/workbench/design.json.gz", 40)).doesNotContain("tiles<");
    }

    /** Saved for paper, a map has one scale, near and far. */
    @Test
    void aSavedMapHasOneScale() throws Exception {
        Path file = Path.of("fixtures/workbench/design.json.gz");
        Design design = DesignReader.read(file, Progress.NONE);
        OpenDesign opened = new OpenDesign(design);
        for (double scale : new double[] {8, 40}) {
            Viewport view = new Viewport(900, 700, 10, 10, scale);
            SvgSurface out = new SvgSurface(900, 900, "map");
            new PrintedMap(MapPicture.plain(opened, view, Palette.LIGHT)).paint(out);
            assertThat(out.finish().split(" tiles?<", -1)).as("at " + scale).hasSize(2);
        }
    }

    @Test
    void aSmallFabricNeedsNone() throws Exception {
        assertThat(picture("fixtures/small/only.design.json", 12)).doesNotContain("tiles<");
    }
}
