package padward.ui.map;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import padward.ui.draw.Viewport;
import padward.ui.model.ExplorerModel;
import padward.ui.work.Background;

/** Views of the map, and going back to them, without a window. */
class MapNavigationTest {
    private final ExplorerModel model = new ExplorerModel(Background.immediate());
    private final MapNavigation navigation = new MapNavigation(new MapModel(model), () -> {});

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
}
