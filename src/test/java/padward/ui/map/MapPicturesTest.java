package padward.ui.map;

import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javafx.embed.swing.SwingFXUtils;
import javafx.scene.SnapshotParameters;
import javafx.scene.canvas.Canvas;
import javafx.scene.image.WritableImage;
import javafx.scene.transform.Transform;
import javafx.stage.Stage;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import padward.ui.design.OpenDesign;
import padward.ui.design.TileLayout;
import padward.ui.draw.Palette;
import padward.ui.draw.Viewport;
import padward.ui.model.WindowModel;
import padward.ui.scene.MapLayer;
import padward.ui.work.BackgroundWork;

/**
 * Takes pictures of the map alone, of a design and a question, at five zooms, several sizes and in
 * both themes: {@code mvn test -Dtest=MapPicturesTest -Dpictures=FOLDER -Dpicture.design=…
 * -Dpicture.net=… -Dpicture.pad=…}. Each file is named after its zoom, size and theme. The nearest
 * zoom is of a switch box halfway along the route; {@code -Dpicture.at=X,Y} chooses another place,
 * {@code -Dpicture.sizes=1280x800x1} (pixels of the view, and of the screen for each) other sizes.
 */
@ExtendWith(ApplicationExtension.class)
@EnabledIfSystemProperty(named = "pictures", matches = ".+")
class MapPicturesTest {
    private static final String SIZES = "1280x800x1,1920x1080x1,1920x1080x2";

    /** Pixels a tile where single wires are drawn, and where switches are. */
    private static final double SOME_TILES = 150;

    private static final double FEW_TILES = 420;

    private WindowModel model;
    private MapModel map;

    @Start
    void start(Stage stage) {
        model = new WindowModel(BackgroundWork.immediate());
        map = new MapModel(model);
        model.open(Path.of(System.getProperty("picture.design", "fixtures/irregular/design.json")));
    }

    @Test
    void takeThem(FxRobot robot) {
        robot.interact(this::takeAll);
    }

    private void takeAll() {
        Optional.ofNullable(System.getProperty("picture.net"))
                .ifPresent(
                        net -> {
                            model.shown().netTextProperty().set(net);
                            model.shown().padTextProperty().set(System.getProperty("picture.pad"));
                            model.shown().ask();
                        });
        for (String layer : System.getProperty("picture.layers", "").split(",")) {
            if (!layer.isEmpty()) {
                map.options().toggle(MapLayer.valueOf(layer));
            }
        }
        OpenDesign opened = model.openedProperty().get().orElseThrow();
        int pinned = opened.design().fabric().findVertex(System.getProperty("picture.pin", "none"));
        if (pinned >= 0) {
            map.pinnedProperty().set(Optional.of(new MapItemDescriber(opened).vertex(pinned)));
        }
        for (String size : System.getProperty("picture.sizes", SIZES).split(",")) {
            double[] numbers = numbers(size, "x");
            for (boolean dark : themes()) {
                views(numbers[0], numbers[1])
                        .forEach((zoom, view) -> take(zoom, view, dark, numbers[2], size));
            }
        }
    }

    private static List<Boolean> themes() {
        String theme = System.getProperty("picture.theme", "both");
        return theme.equals("both") ? List.of(false, true) : List.of(theme.equals("dark"));
    }

    private static double[] numbers(String text, String between) {
        return Arrays.stream(text.split(between)).mapToDouble(Double::parseDouble).toArray();
    }

    /** From the whole fabric over the whole route to one box, by their names. */
    private Map<String, Viewport> views(double width, double height) {
        MapNavigation navigation = MapNavigationTest.navigation(map);
        navigation.resize(width, height);
        Map<String, Viewport> result = new LinkedHashMap<>();
        navigation.fitAll();
        result.put("1-whole", navigation.view());
        navigation.fitRoute();
        result.put("2-route", navigation.view());
        TileLayout.Point place = place(navigation.view());
        navigation.goTo(place.x(), place.y(), SOME_TILES);
        result.put("3-some-tiles", navigation.view());
        navigation.goTo(place.x(), place.y(), FEW_TILES);
        result.put("4-few-tiles", navigation.view());
        navigation.fitBox();
        result.put("5-box", navigation.view());
        return result;
    }

    /** The place that was asked for, or else the box halfway along the route. */
    private TileLayout.Point place(Viewport whole) {
        String at = System.getProperty("picture.at", "");
        if (!at.isEmpty()) {
            double[] numbers = numbers(at, ",");
            return new TileLayout.Point(numbers[0], numbers[1]);
        }
        OpenDesign opened = model.openedProperty().get().orElseThrow();
        return model.shown()
                .route()
                .map(
                        r -> {
                            int half = r.hops().size() / 2;
                            int tile =
                                    opened.layout()
                                            .meeting(
                                                    r.hops().get(half - 1).vertex(),
                                                    r.hops().get(half).vertex())
                                            .toTile();
                            return opened.layout().box(tile);
                        })
                .orElse(new TileLayout.Point(whole.centreX(), whole.centreY()));
    }

    private void take(String zoom, Viewport view, boolean dark, double density, String size) {
        MapCanvas picture = new MapCanvas(map);
        Canvas canvas = new Canvas(view.width(), view.height());
        picture.paint(
                canvas.getGraphicsContext2D(),
                model.openedProperty().get().orElseThrow(),
                view,
                dark ? Palette.DARK : Palette.LIGHT,
                density,
                false);
        SnapshotParameters finer = new SnapshotParameters();
        finer.setTransform(Transform.scale(density, density));
        WritableImage image = canvas.snapshot(finer, null);
        String name = zoom + "-" + size + (dark ? "-dark.png" : "-light.png");
        try {
            ImageIO.write(
                    SwingFXUtils.fromFXImage(image, null),
                    "png",
                    new File(System.getProperty("pictures"), name));
        } catch (IOException fault) {
            throw new UncheckedIOException(fault);
        }
    }
}
