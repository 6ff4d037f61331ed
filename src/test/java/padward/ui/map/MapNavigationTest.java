package padward.ui.map;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.HashSet;
import java.util.Set;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import padward.ui.draw.Palette;
import padward.ui.draw.TileImage;
import padward.ui.draw.Viewport;
import padward.ui.model.WindowModel;
import padward.ui.scene.MapScene;
import padward.ui.work.BackgroundWork;

/** Views of the map, and going back to them, without a window. */
class MapNavigationTest {
    private final WindowModel model = new WindowModel(BackgroundWork.immediate());
    private final MapNavigation navigation = navigation(new MapModel(model));

    /** Moves the view of a map in the light theme. */
    static MapNavigation navigation(MapModel map) {
        MapCanvas canvas = new MapCanvas(map);
        return new MapNavigation(map, (o, v) -> canvas.scene(o, v, Palette.LIGHT), () -> {});
    }

    @BeforeEach
    void open() {
        model.open(Path.of("fixtures/small/only.design.json"));
    }

    @Test
    void theViewBeforeTheMapHasASizeIsNotRemembered() {
        navigation.goTo(3, 4, 50);
        navigation.resize(800, 600);
        Viewport first = navigation.view();
        assertThat(first.centreX()).isEqualTo(3);
        navigation.back();
        assertThat(navigation.view()).isEqualTo(first);
        navigation.goTo(5, 5, 80);
        navigation.back();
        assertThat(navigation.view()).isEqualTo(first);
    }

    @Test
    void anotherFabricForgetsTheEarlierViews() {
        navigation.resize(800, 600);
        navigation.goTo(3, 4, 50);
        navigation.startAgain();
        Viewport whole = navigation.view();
        navigation.resize(400, 300);
        assertThat(navigation.view().scale()).as("still shown whole").isLessThan(whole.scale());
        navigation.resize(800, 600);
        navigation.back();
        assertThat(navigation.view()).isEqualTo(whole);
    }

    @Test
    void fittingAgainUsesThePictureOfTheTilesThatIsThere() {
        MapModel map = new MapModel(model);
        MapCanvas canvas = new MapCanvas(map);
        Set<TileImage> pictures = new HashSet<>();
        Set<Double> widths = new HashSet<>();
        MapNavigation fitting =
                new MapNavigation(
                        map,
                        (opened, view) -> {
                            MapScene scene = canvas.scene(opened, view, Palette.LIGHT);
                            pictures.add(scene.cells());
                            widths.add(view.width());
                            return scene;
                        },
                        () -> {});
        fitting.startAgain();
        fitting.resize(800, 600);
        fitting.resize(400, 300);
        assertThat(widths).contains(800.0, 400.0);
        assertThat(pictures).hasSize(1);
    }
}
