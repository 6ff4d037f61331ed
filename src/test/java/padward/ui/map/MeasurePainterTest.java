package padward.ui.map;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import padward.ui.design.OpenDesign;
import padward.ui.design.TileLayout;
import padward.ui.draw.Palette;
import padward.ui.draw.SvgSurface;
import padward.ui.draw.TileImage;
import padward.ui.draw.Viewport;
import padward.ui.model.WindowModel;
import padward.ui.scene.MapLayer;
import padward.ui.scene.MapScene;
import padward.ui.work.BackgroundWork;

/** What is measured can be read, also beside the legend. */
class MeasurePainterTest {
    private static final int HEIGHT = 600;
    private final WindowModel model = new WindowModel(BackgroundWork.immediate());

    private double heightOfText(boolean legend) {
        model.open(Path.of("fixtures/small/only.design.json"));
        OpenDesign opened = model.openedProperty().get().orElseThrow();
        MapModel map = new MapModel(model);
        if (legend) {
            map.options().toggle(MapLayer.LEGEND);
        }
        MapScene scene =
                map.scene(
                        opened,
                        new Viewport(800, HEIGHT, 4, 4, 60),
                        Palette.LIGHT,
                        new TileImage(opened.design().fabric(), tile -> 0));
        SvgSurface out = new SvgSurface(800, HEIGHT, "map");
        new MeasurePainter(new TileLayout.Point(2, 6), new TileLayout.Point(6, 6), "4 tiles; 1 ns")
                .paintTags(scene, out);
        Matcher text = Pattern.compile("<text[^>]* y=\"([0-9.]+)\"").matcher(out.finish());
        assertThat(text.find()).isTrue();
        return Double.parseDouble(text.group(1));
    }

    @Test
    void theTextIsByTheRuler() {
        assertThat(heightOfText(false)).isGreaterThan(100);
    }

    @Test
    void theTextIsNotOnTheLegend() {
        assertThat(heightOfText(true)).isLessThan(40);
    }
}
