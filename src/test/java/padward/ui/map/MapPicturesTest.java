package padward.ui.map;

import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
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
import padward.ui.draw.Palette;
import padward.ui.draw.Viewport;
import padward.ui.model.WindowModel;
import padward.ui.scene.MapLayer;
import padward.ui.work.Background;

/**
 * Takes pictures of the map alone, of a design and a question, at several zooms and sizes and in
 * both themes: {@code mvn test -Dtest=MapPicturesTest -Dpictures=FOLDER -Dpicture.design=…
 * -Dpicture.net=… -Dpicture.pad=… -Dpicture.at=X,Y}. Each file is named after its size, theme and
 * pixels a tile; {@code -Dpicture.scales=20,60} and {@code -Dpicture.sizes=1280x800x1} (pixels of
 * the view, and of the screen for each) choose others.
 */
@ExtendWith(ApplicationExtension.class)
@EnabledIfSystemProperty(named = "pictures", matches = ".+")
class MapPicturesTest {
    private static final String SIZES = "1280x800x1,1920x1080x1,1920x1080x2";

    private WindowModel model;
    private MapModel map;

    @Start
    void start(Stage stage) {
        model = new WindowModel(Background.immediate());
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
                for (Viewport view : views(numbers[0], numbers[1])) {
                    take(view, dark, numbers[2], size);
                }
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

    /** The whole of the route, or of the fabric; then nearer and nearer to a place. */
    private List<Viewport> views(double width, double height) {
        Viewport blank = new Viewport(width, height, 0, 0, 1);
        ViewTargets targets = new ViewTargets(map);
        Viewport whole = targets.route().or(targets::fabric).orElseThrow().in(blank, 260);
        List<Viewport> result = new ArrayList<>();
        String at = System.getProperty("picture.at", "");
        double[] place =
                at.isEmpty() ? new double[] {whole.centreX(), whole.centreY()} : numbers(at, ",");
        for (double scale :
                numbers(System.getProperty("picture.scales", "0,60,150,320,800"), ",")) {
            result.add(scale == 0 ? whole : whole.centredOn(place[0], place[1]).atScale(scale));
        }
        return result;
    }

    private void take(Viewport view, boolean dark, double density, String size) {
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
        String name = size + (dark ? "-dark-" : "-light-") + Math.round(view.scale()) + ".png";
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
