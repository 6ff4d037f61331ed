package padward.ui.map;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import padward.breakout.ask.Obstacle;
import padward.breakout.ask.Route;
import padward.ui.design.OpenDesign;
import padward.ui.design.TileLayout;
import padward.ui.draw.Palette;
import padward.ui.draw.TileImage;
import padward.ui.draw.Viewport;
import padward.ui.model.WindowModel;
import padward.ui.scene.DelayBandWidth;
import padward.ui.scene.MapLayer;
import padward.ui.scene.MapScene;
import padward.ui.scene.NetReach;
import padward.ui.work.BackgroundWork;
import padward.ui.work.HeldBackground;

/** What the map shows, without a toolkit. */
class MapModelTest {
    private static final Viewport VIEW = new Viewport(800, 600, 4, 4, 60);

    private final WindowModel model = new WindowModel(BackgroundWork.immediate());
    private final MapModel map = new MapModel(model);

    @BeforeEach
    void ask() {
        model.open(Path.of("fixtures/small/only.design.json"));
        ask("J1.3");
    }

    private void ask(String pad) {
        model.shown().netTextProperty().set("pump/level/sample[1]");
        model.shown().padTextProperty().set(pad);
        model.shown().ask();
    }

    private MapScene scene() {
        OpenDesign opened = model.openedProperty().get().orElseThrow();
        TileImage cells = new TileImage(opened.design().fabric(), tile -> 0);
        return map.scene(opened, VIEW, Palette.LIGHT, cells);
    }

    /** A ruler says that it is working when its delay takes a while, and the delay afterwards. */
    @Test
    void aRulerThatTakesAWhileSaysSo() {
        HeldBackground held = new HeldBackground();
        WindowModel slow = new WindowModel(held);
        slow.open(Path.of("fixtures/small/only.design.json"));
        held.endAll();
        MeasureModel measure = new MeasureModel(slow);
        measure.begin(new TileLayout.Point(1.5, 1.5));
        measure.extend(new TileLayout.Point(4.5, 1.5));
        measure.finish();
        assertThat(text(measure)).isEqualTo("x1y1 to x4y1: 3 columns, 0 rows");
        assertThat(held.running()).isEqualTo(2);
        held.end(held.jobs().get(1));
        assertThat(text(measure)).endsWith("; measuring …");
        held.endAll();
        assertThat(text(measure)).endsWith(" over free wires");
        measure.finish();
        held.end(held.jobs().get(0));
        held.endAll();
        assertThat(text(measure)).as("told too late").endsWith(" over free wires");
    }

    private static String text(MeasureModel measure) {
        return ((MeasurePainter) measure.rulerProperty().get().orElseThrow()).text();
    }

    @Test
    void layersAreShownAndHidden() {
        int[] calls = {0};
        map.addListener(() -> calls[0]++);
        assertThat(scene().shows(MapLayer.ROUTE)).isTrue();
        assertThat(scene().shows(MapLayer.DELAY)).isFalse();
        map.options().toggle(MapLayer.ROUTE);
        assertThat(scene().shows(MapLayer.ROUTE)).isFalse();
        assertThat(calls[0]).isPositive();
    }

    @Test
    void anObstacleAndItsHopAreOneSelection() {
        Obstacle obstacle = model.shown().obstacles().get(0);
        map.choose(obstacle);
        assertThat(model.shown().selectedHopProperty().get()).contains(obstacle.hops().get(0));
        assertThat(scene().chosenObstacle()).contains(obstacle);
        model.shown().selectedHopProperty().set(Optional.of(0));
        assertThat(map.chosenObstacleProperty().get()).isEmpty();
        model.shown().selectedHopProperty().set(Optional.of(obstacle.hops().get(1)));
        assertThat(map.chosenObstacleProperty().get()).contains(obstacle);
        ask("J1.2");
        assertThat(map.chosenObstacleProperty().get()).isEmpty();
    }

    @Test
    void aWhatIfShowsBothRoutesAndWhatItRemoves() {
        Route before = model.shown().route().orElseThrow();
        Obstacle obstacle = model.shown().obstacles().get(0);
        assertThat(scene().before()).isEmpty();
        model.shown().tryIt();
        assertThat(scene().before()).contains(before);
        assertThat(scene().route()).isPresent().isNotEqualTo(Optional.of(before));
        assertThat(scene().obstacles()).containsExactly(obstacle);
        model.drop();
        assertThat(scene().before()).isEmpty();
    }

    @Test
    void aPadToWhichNoRouteLeadsIsMarkedAndShownWithTheNet() {
        ask("x3y0/pad[0]");
        OpenDesign opened = model.openedProperty().get().orElseThrow();
        int pad = opened.design().fabric().findVertex("x3y0/pad[0]");
        assertThat(scene().route()).isEmpty();
        assertThat(scene().marked()).contains(pad);
        Viewport seen = new ViewTargets(map).route().orElseThrow().in(VIEW, 100);
        for (int vertex :
                new int[] {
                    pad,
                    opened.design().findNet("pump/level/sample[1]").orElseThrow().route().root()
                }) {
            TileLayout.Point at = opened.layout().end(vertex);
            assertThat(seen.screenX(at.x())).isBetween(0.0, VIEW.width());
            assertThat(seen.screenY(at.y())).isBetween(0.0, VIEW.height());
        }
        ask("J1.2");
        assertThat(scene().marked()).doesNotContain(pad);
    }

    @Test
    void lettersFollowTheTextSize() {
        assertThat(scene().letters(10)).isEqualTo(10);
        model.look().setTextSize(21);
        assertThat(scene().letters(10)).isEqualTo(15);
    }

    @Test
    void howFarTheNetGetsIsCalculatedWhenItIsShown() {
        assertThat(map.reachProperty().get()).isEmpty();
        map.options().toggle(MapLayer.DELAY);
        NetReach reach = map.reachProperty().get().orElseThrow();
        assertThat(reach.bandCount()).isBetween(2, 8);
        // The pad of the question is in use: no free route reaches it.
        assertThat(reach.reachesPadPs()).isEmpty();
        map.options().bandWidthProperty().set(DelayBandWidth.HALF);
        assertThat(scene().bands().orElseThrow().limit(1)).isEqualTo("1 ns");
        ask("J1.2");
        Route route = model.shown().route().orElseThrow();
        assertThat(map.reachProperty().get().orElseThrow().reachesPadPs())
                .hasValue(route.toPadVertex().slowPs());
        map.options().toggle(MapLayer.DELAY);
        assertThat(scene().bands()).isEmpty();
    }

    @Test
    void earlierViewsCanBeGoneBackTo() {
        ViewHistory history = new ViewHistory();
        history.look(VIEW);
        history.jump(VIEW.centredOn(1, 1));
        history.look(history.view().panned(10, 0));
        history.jump(VIEW.centredOn(7, 7));
        history.back();
        assertThat(history.view().centreY()).isEqualTo(1);
        history.back();
        assertThat(history.view()).isEqualTo(VIEW);
        history.back();
        assertThat(history.view()).isEqualTo(VIEW);
        history.forward();
        history.jump(VIEW.centredOn(2, 2));
        history.forward();
        assertThat(history.view().centreX()).isEqualTo(2);
    }

    @Test
    void thingsOnTheMapAreDescribed() {
        OpenDesign opened = model.openedProperty().get().orElseThrow();
        MapHitTest pointer = new MapHitTest(opened);
        TileLayout.Box site =
                opened.layout().site(opened.design().fabric().findSite("x3y3/cell[1]"));
        MapItem cell = pointer.find(site.centreX(), site.centreY(), 200).orElseThrow();
        assertThat(cell.line())
                .contains("x3y3/cell[1]")
                .contains("used by cell pump/level/sample[1]");
        assertThat(cell.details()).anyMatch(d -> d.contains("Drives pump/level/sample[1]"));
        int pad = opened.design().fabric().findVertex("x7y3/pad[0]");
        TileLayout.Box pill = opened.layout().pillAt(pad);
        MapItem motor = pointer.find(pill.centreX(), pill.centreY(), 60).orElseThrow();
        assertThat(motor.pad()).isPresent();
        assertThat(motor.details())
                .contains("Port motor uses this pad.")
                .anyMatch(d -> d.startsWith("Package pin D7"));
        int wire = opened.design().fabric().findVertex("x3y3/run3_e[1]");
        TileLayout.Point from = opened.layout().start(wire);
        TileLayout.Point to = opened.layout().end(wire);
        MapItem line =
                pointer.find((from.x() + to.x()) / 2, (from.y() + to.y()) / 2, 400).orElseThrow();
        assertThat(line.name()).isEqualTo("x3y3/run3_e[1]");
        assertThat(line.details().get(0)).startsWith("Can drive ");
        assertThat(pointer.find(-5, -5, 60)).isEmpty();
        assertThat(pointer.find(3.5, 3.5, 10).orElseThrow().kind()).isEqualTo("tile");
    }
}
