package padward.ui.paint;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.EnumSet;
import java.util.Set;
import javafx.geometry.Rectangle2D;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.Progress;
import padward.fabric.Pad;
import padward.format.design.DesignReader;
import padward.ui.design.OpenDesign;
import padward.ui.design.TileLayout;
import padward.ui.draw.Palette;
import padward.ui.draw.SvgSurface;
import padward.ui.draw.Viewport;
import padward.ui.scene.MapLayer;
import padward.ui.scene.MapScene;
import padward.ui.scene.WorldRectangle;

/** A small fabric in the map, beside its legend. */
class FabricFitTest {
    @ParameterizedTest
    @CsvSource({
        "533, 215, 1, true",
        "792, 238, 1, true",
        "792, 318, 1.43, false",
        "700, 400, 1, false",
        "400, 500, 1, false",
        "1300, 800, 1.43, true",
        "3000, 900, 1, true"
    })
    void padsAreClearOfLegendAndNumbers(int width, int height, double letters, boolean rulers)
            throws Exception {
        OpenDesign opened =
                new OpenDesign(
                        DesignReader.read(
                                Path.of("fixtures/small/only.design.json"), Progress.NONE));
        var fabric = opened.design().fabric();
        WorldRectangle all =
                new WorldRectangle(-0.5, -0.5, fabric.columns() + 0.5, fabric.rows() + 0.5);
        MapScene any = scene(opened, new Viewport(width, height, 0, 0, 9), letters, rulers);
        Viewport view = FabricFit.in(any, all, 260);
        MapScene scene = any.seenIn(view);
        LegendPainter.Place at =
                new LegendPainter(scene, new SvgSurface(1, 1, "")).findPlace().orElseThrow();
        Rectangle2D legend = new Rectangle2D(at.left(), at.top(), at.width(), at.height());
        double ruler = rulers ? RulerPainter.breadth(scene) : 0;
        for (Pad pad : fabric.pads()) {
            TileLayout.Box pill = opened.layout().pillAt(pad.vertex());
            double left = view.screenX(pill.x());
            double right = view.screenX(pill.x() + pill.width());
            double top = view.screenY(pill.y() + pill.height());
            double bottom = view.screenY(pill.y());
            assertThat(legend.intersects(left, top, right - left, bottom - top))
                    .as("%s at %s,%s under %s", pad, left, top, legend)
                    .isFalse();
            assertThat(left).isGreaterThanOrEqualTo(0);
            assertThat(top).isGreaterThanOrEqualTo(0);
            assertThat(right).isLessThanOrEqualTo(width - RulerPainter.WIDER * ruler);
            assertThat(bottom).isLessThanOrEqualTo(height - ruler);
        }
    }

    private static MapScene scene(
            OpenDesign opened, Viewport view, double letters, boolean rulers) {
        MapScene plain = MapPicture.plain(opened, view, Palette.LIGHT);
        Set<MapLayer> layers = EnumSet.copyOf(MapLayer.shownFirst());
        layers.add(MapLayer.LEGEND);
        if (rulers) {
            layers.add(MapLayer.RULERS);
        }
        return new MapScene(
                opened,
                view,
                plain.palette(),
                letters,
                layers,
                plain.cells(),
                plain.net(),
                plain.route(),
                plain.alternatives(),
                plain.before(),
                plain.obstacles(),
                plain.chosenObstacle(),
                plain.marked(),
                plain.reach(),
                plain.overlay());
    }
}
