package padward.ui.map;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javafx.geometry.Rectangle2D;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import padward.ui.design.OpenDesign;
import padward.ui.design.TileLayout;
import padward.ui.draw.Palette;
import padward.ui.draw.Raster;
import padward.ui.draw.SvgSurface;
import padward.ui.draw.TileImage;
import padward.ui.draw.Viewport;
import padward.ui.model.WindowModel;
import padward.ui.paint.MapPicture;
import padward.ui.scene.MapLayer;
import padward.ui.scene.MapOverlay;
import padward.ui.scene.MapScene;
import padward.ui.work.BackgroundWork;

/** Names of obstacles, the legend and what is measured, on maps of all heights. */
class LowMapTest {
    private static final int WIDTH = 700;

    private final WindowModel model = new WindowModel(BackgroundWork.immediate());
    private MapModel map;
    private OpenDesign opened;

    @BeforeEach
    void ask() {
        model.open(Path.of("fixtures/small/only.design.json"));
        map = new MapModel(model);
        map.options().toggle(MapLayer.LEGEND);
        model.shown().netTextProperty().set("pump/level/sample[1]");
        model.shown().padTextProperty().set("J1.3");
        model.shown().ask();
        opened = model.openedProperty().get().orElseThrow();
    }

    private String picture(int height) {
        MapOverlay measured =
                new MeasurePainter(
                        new TileLayout.Point(2, 3),
                        new TileLayout.Point(6, 3),
                        "4 columns, 0 rows; 1.000 ns over free wires");
        Viewport view = new Viewport(WIDTH, height, 4, 3, 90);
        MapScene plain =
                map.scene(
                        opened,
                        view,
                        Palette.LIGHT,
                        new TileImage(opened.design().fabric(), tile -> 0));
        MapScene scene = plain.with(Optional.of(measured));
        SvgSurface out = new SvgSurface(WIDTH, height, "map");
        MapPicture.paint(scene, out);
        return out.finish();
    }

    /** The rectangles in the colour of paper, which only texts have below them. */
    private static List<Rectangle2D> texts(String picture) {
        String paper =
                String.format(Locale.ROOT, "#%06x", Raster.pixel(Palette.LIGHT.paper()) & 0xffffff);
        List<Rectangle2D> result = new ArrayList<>();
        Matcher rectangle = Pattern.compile("<rect ([^>]*)>").matcher(picture);
        while (rectangle.find()) {
            String words = rectangle.group(1);
            if (words.toLowerCase(Locale.ROOT).contains("fill=\"" + paper)
                    && number(words, "width") < WIDTH) {
                result.add(
                        new Rectangle2D(
                                number(words, "x"),
                                number(words, "y"),
                                number(words, "width"),
                                number(words, "height")));
            }
        }
        return result;
    }

    private static double number(String words, String name) {
        Matcher value = Pattern.compile("(?:^|\\s)" + name + "=\"([-0-9.]+)\"").matcher(words);
        return value.find() ? Double.parseDouble(value.group(1)) : 0;
    }

    @ParameterizedTest
    @ValueSource(ints = {90, 120, 150, 179, 180, 240, 300, 400, 600})
    void noTextLiesOnAnother(int height) {
        List<Rectangle2D> texts = texts(picture(height));
        assertThat(texts).as("what is measured, at least").isNotEmpty();
        for (int i = 0; i < texts.size(); i++) {
            for (int j = i + 1; j < texts.size(); j++) {
                assertThat(overlap(texts.get(i), texts.get(j)))
                        .as("%s and %s", texts.get(i), texts.get(j))
                        .isLessThan(1);
            }
        }
    }

    /** Area that both have, pixels. */
    private static double overlap(Rectangle2D one, Rectangle2D other) {
        double wide =
                Math.min(one.getMaxX(), other.getMaxX()) - Math.max(one.getMinX(), other.getMinX());
        double high =
                Math.min(one.getMaxY(), other.getMaxY()) - Math.max(one.getMinY(), other.getMinY());
        return wide > 0 && high > 0 ? wide * high : 0;
    }

    @ParameterizedTest
    @ValueSource(ints = {120, 179})
    void aLowMapHasNoLegend(int height) {
        assertThat(picture(height)).doesNotContain("No room").doesNotContain("switch box");
        assertThat(picture(600)).contains("switch box");
        assertThat(texts(picture(600)))
                .as("legend, name of an obstacle, measure")
                .hasSizeGreaterThanOrEqualTo(3);
    }
}
