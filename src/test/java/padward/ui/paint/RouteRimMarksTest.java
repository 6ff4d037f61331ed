package padward.ui.paint;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Obstacle;
import padward.breakout.ask.Question;
import padward.design.Design;
import padward.design.PadNames;
import padward.fabric.delay.Corner;
import padward.format.tables.TableImport;
import padward.ui.design.BoxDiagram;
import padward.ui.design.OpenDesign;
import padward.ui.design.TileLayout;
import padward.ui.draw.Palette;
import padward.ui.draw.SvgSurface;
import padward.ui.draw.Viewport;
import padward.ui.scene.MapScene;
import padward.ui.scene.ObstaclePlaces;
import padward.ui.scene.ZoomScales;

/** Where a route leaves the map, and its obstacles inside an open switch box. */
class RouteRimMarksTest {
    private static OpenDesign opened;
    private static Answer.Blocked answer;

    @BeforeAll
    static void ask() throws Exception {
        TableImport.Result read = TableImport.read(Path.of("fixtures/irregular"), 1, Progress.NONE);
        Design design = ((TableImport.Sound) read).design().orElseThrow();
        opened = new OpenDesign(design);
        Question question =
                new Question(
                        design,
                        design.findNet("data_en").orElseThrow(),
                        PadNames.find(design, "level").get(0),
                        Corner.SLOW);
        answer = (Answer.Blocked) Asker.ask(question, Progress.NONE);
    }

    private static String picture(Viewport view) {
        MapScene plain = MapPicture.plain(opened, view, Palette.LIGHT);
        MapScene scene =
                new MapScene(
                        opened,
                        view,
                        Palette.LIGHT,
                        1,
                        plain.layers(),
                        plain.cells(),
                        Optional.of(answer.question().net()),
                        Optional.of(answer.route()),
                        List.of(),
                        Optional.empty(),
                        answer.obstacles(),
                        Optional.empty(),
                        List.of(),
                        Optional.empty(),
                        Optional.empty());
        SvgSurface out = new SvgSurface(view.width(), view.height(), "map");
        MapPicture.paint(scene, out);
        return out.finish();
    }

    @ParameterizedTest
    @CsvSource({
        // all of it; its cell; its pad; the wire in between; a corner that it does not come to
        "2, 1.5, 100, false, false",
        "1.6, 1.5, 900, false, true",
        "4.2, 1.5, 400, true, false",
        "3.1, 1.45, 1500, true, true",
        "0.3, 0.3, 900, false, false",
    })
    void endsOutsideThePictureAreNamedAtItsRim(
            double x, double y, double scale, boolean from, boolean to) {
        String picture = picture(new Viewport(900, 700, x, y, scale));
        assertThat(picture.contains(">from data_en<")).isEqualTo(from);
        assertThat(picture.contains(">to B1<")).isEqualTo(to);
    }

    @Test
    void anObstacleInsideAnOpenBoxIsOnItsRow() {
        int hop =
                answer.obstacles().stream()
                        .filter(o -> o.occupant().name().equals("store"))
                        .map(Obstacle::hops)
                        .findFirst()
                        .orElseThrow()
                        .get(0);
        int vertex = answer.route().hops().get(hop).vertex();
        int tile =
                opened.layout()
                        .meeting(answer.route().hops().get(hop - 1).vertex(), vertex)
                        .toTile();
        BoxDiagram diagram = opened.diagram(tile);
        TileLayout.Point row = diagram.outputAt(diagram.outputRow(vertex));
        Obstacle obstacle = answer.obstacles().get(0);
        assertThat(places(ZoomScales.BOX).of(obstacle)).isEqualTo(row);
        assertThat(places(ZoomScales.BOX - 1).of(obstacle)).isNotEqualTo(row);
        assertThat(places(ZoomScales.BOX).near(answer.obstacles(), row.x(), row.y(), 0.001))
                .contains(obstacle);
    }

    private static ObstaclePlaces places(double scale) {
        return new ObstaclePlaces(opened, answer.route(), scale);
    }
}
