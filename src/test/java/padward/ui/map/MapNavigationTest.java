package padward.ui.map;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import padward.ui.draw.Viewport;
import padward.ui.model.ExplorerModel;
import padward.ui.work.Background;

/** Places on the map, and the way back to them, without a window. */
class MapNavigationTest {
    private final ExplorerModel model = new ExplorerModel(Background.immediate());
    private final MapNavigation travel = new MapNavigation(new MapModel(model), () -> {});

    @BeforeEach
    void open() {
        model.open(Path.of("fixtures/small/only.design.json"));
    }

    @Test
    void whereOneIsBeforeTheMapIsLaidOutIsNoPlaceToComeBackTo() {
        travel.goTo(3, 4, 50);
        travel.resize(800, 600);
        Viewport first = travel.view();
        assertThat(first.centreX()).isEqualTo(3);
        travel.back();
        assertThat(travel.view()).isEqualTo(first);
        travel.goTo(5, 5, 80);
        travel.back();
        assertThat(travel.view()).isEqualTo(first);
    }

    @Test
    void anotherFabricHasNoPlacesToComeBackTo() {
        travel.resize(800, 600);
        travel.goTo(3, 4, 50);
        travel.startAfresh();
        Viewport whole = travel.view();
        travel.resize(400, 300);
        assertThat(travel.view().scale()).as("still shown whole").isLessThan(whole.scale());
        travel.resize(800, 600);
        travel.back();
        assertThat(travel.view()).isEqualTo(whole);
    }
}
