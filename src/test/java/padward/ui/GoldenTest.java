package padward.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import javafx.embed.swing.SwingFXUtils;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.layout.StackPane;
import javafx.stage.Stage;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import padward.ui.control.Themes;
import padward.ui.design.OpenDesign;
import padward.ui.draw.Palette;
import padward.ui.map.MapItem;
import padward.ui.map.MapItemDescriber;
import padward.ui.map.MapModel;
import padward.ui.map.MapView;
import padward.ui.model.WindowModel;
import padward.ui.scene.MapLayer;
import padward.ui.work.BackgroundWork;

/**
 * The looks of map and window, against pictures that were looked at and found good. After a change
 * that is meant, {@code mvn test -Dtest=GoldenTest -Dgolden.renew=true} takes them anew; look at
 * them before you keep them.
 *
 * <p>The map is taken by itself, {@value #WIDTH} by {@value #HEIGHT} pixels, so that what stands
 * around it in the window does not matter; the window, 1280 by 800, is made smaller by means over
 * areas. Pictures are compared by the means of blocks of {@value #BLOCK} by {@value #BLOCK} pixels.
 * Letters are about 7 pixels wide: a block of the map holds one and some ground, one of the window
 * several. Another way of smoothing them moves such a mean by a few of 255 levels, while a line of
 * text, a site or a button that is gone or moved by its own height moves some by 20 and more. So a
 * block may differ by {@value #BLOCK_TOLERANCE} levels, and {@value #BLOCKS_APART} of the 2280
 * blocks by more, for a word that breaks elsewhere. That this still sees what is missing is tested
 * too.
 */
@ExtendWith(ApplicationExtension.class)
class GoldenTest {
    private static final int WIDTH = 480;
    private static final int HEIGHT = 300;
    private static final int BLOCK = 8;
    private static final int BLOCK_TOLERANCE = 14;
    private static final int BLOCKS_APART = 12;
    private static final double WINDOW_WIDTH = 1280;
    private static final double WINDOW_HEIGHT = 800;
    private static final Path FOLDER = Path.of("src/test/resources/padward/ui/golden");

    private WindowModel model;
    private MainView window;
    private MapView map;

    @Start
    void start(Stage stage) {
        stage.setWidth(WINDOW_WIDTH);
        stage.setHeight(WINDOW_HEIGHT);
        model = PadwardApp.show(stage, BackgroundWork.immediate());
        window = (MainView) stage.getScene().getRoot();
        map = new MapView(new MapModel(model));
        map.getStylesheets().add(Themes.window());
        new Scene(new StackPane(map), WIDTH, HEIGHT);
        map.resize(WIDTH, HEIGHT);
        map.layout();
    }

    private void open(FxRobot robot) {
        robot.interact(() -> model.open(Path.of("fixtures/small/only.design.json")));
    }

    private void ask(FxRobot robot, String pad) {
        open(robot);
        robot.interact(
                () -> {
                    model.shown().netTextProperty().set("pump/level/sample[1]");
                    model.shown().padTextProperty().set(pad);
                    model.shown().ask();
                });
    }

    private void dark(FxRobot robot) {
        robot.interact(() -> model.look().darkProperty().set(true));
    }

    @Test
    void windowWithoutADesign(FxRobot robot) {
        compare(window(robot), "window-empty");
    }

    @Test
    void windowBlocked(FxRobot robot) {
        ask(robot, "J1.3");
        compare(window(robot), "window-blocked");
    }

    @Test
    void windowBlockedDark(FxRobot robot) {
        ask(robot, "J1.3");
        dark(robot);
        compare(window(robot), "window-blocked-dark");
        robot.interact(() -> model.look().darkProperty().set(false));
    }

    @Test
    void windowWithAnError(FxRobot robot) {
        ask(robot, "J9.9");
        compare(window(robot), "window-error");
    }

    @Test
    void windowWithATrial(FxRobot robot) {
        ask(robot, "J1.3");
        robot.interact(model.shown()::tryIt);
        compare(window(robot), "window-what-if");
    }

    @Test
    void mapWithoutADesign(FxRobot robot) {
        compare(map(robot), "map-empty");
    }

    @Test
    void mapOfTheWholeFabric(FxRobot robot) {
        open(robot);
        robot.interact(map::fitAll);
        compare(map(robot), "map-whole");
    }

    @Test
    void mapWithAnOpenRoute(FxRobot robot) {
        ask(robot, "J1.2");
        compare(map(robot), "map-open");
    }

    @Test
    void mapWithABlockedRoute(FxRobot robot) {
        ask(robot, "J1.3");
        robot.interact(() -> map.mapModel().choose(model.shown().obstacles().get(0)));
        compare(map(robot), "map-blocked");
    }

    @Test
    void mapInTheDark(FxRobot robot) {
        ask(robot, "J1.3");
        robot.interact(() -> map.paletteProperty().set(Palette.DARK));
        compare(map(robot), "map-blocked-dark");
    }

    @Test
    void mapWithATrial(FxRobot robot) {
        ask(robot, "x0y5/pad[0]");
        robot.interact(model.shown()::tryIt);
        compare(map(robot), "map-what-if");
    }

    @Test
    void mapAtEachLevel(FxRobot robot) {
        ask(robot, "J1.3");
        double[] scales = {12, 50, 110, 210, 420};
        for (double scale : scales) {
            robot.interact(() -> map.goTo(6, 3.3, scale));
            compare(map(robot), "map-at-" + (int) scale);
        }
    }

    @Test
    void mapWithDelayAndFrontier(FxRobot robot) {
        ask(robot, "J1.2");
        robot.interact(() -> map.mapModel().options().toggle(MapLayer.DELAY));
        robot.interact(() -> map.mapModel().options().toggle(MapLayer.FRONTIER));
        robot.interact(map::fitAll);
        compare(map(robot), "map-delay");
        robot.interact(() -> map.paletteProperty().set(Palette.DARK));
        compare(map(robot), "map-delay-dark");
    }

    @Test
    void mapWithSomethingPinned(FxRobot robot) {
        ask(robot, "J1.2");
        robot.interact(
                () -> {
                    OpenDesign opened = model.openedProperty().get().orElseThrow();
                    int wire = opened.design().fabric().findVertex("x3y3/run3_e[1]");
                    MapItem thing = new MapItemDescriber(opened).vertex(wire);
                    map.mapModel().pinnedProperty().set(Optional.of(thing));
                });
        compare(map(robot), "map-pinned");
    }

    /** The comparison can fail: a map without its way is not taken for the same. */
    @Test
    void whatIsMissingIsSeen(FxRobot robot) {
        ask(robot, "J1.2");
        BufferedImage whole = map(robot);
        robot.interact(() -> map.mapModel().options().toggle(MapLayer.ROUTE));
        assertThat(blocksApart(whole, map(robot))).isGreaterThan(BLOCKS_APART);
    }

    private void compare(BufferedImage now, String name) {
        File file = FOLDER.resolve(name + ".png").toFile();
        try {
            if (Boolean.getBoolean("golden.renew")) {
                Files.createDirectories(FOLDER);
                ImageIO.write(now, "png", file);
                return;
            }
            int apart = blocksApart(ImageIO.read(file), now);
            if (apart > BLOCKS_APART) {
                Path seen = Path.of("target", "golden", name + ".png");
                Files.createDirectories(seen.getParent());
                ImageIO.write(now, "png", seen.toFile());
            }
            assertThat(apart)
                    .as("blocks of %s that differ; what was seen is in target/golden", name)
                    .isLessThanOrEqualTo(BLOCKS_APART);
        } catch (IOException fault) {
            throw new UncheckedIOException(fault);
        }
    }

    /** The window, small; without the focus in a field, so without a caret that blinks. */
    private BufferedImage window(FxRobot robot) {
        robot.interact(() -> window.requestFocus());
        WaitForAsyncUtils.waitForFxEvents();
        return smaller(picture(robot, window));
    }

    private BufferedImage map(FxRobot robot) {
        robot.interact(
                () -> {
                    map.applyCss();
                    map.layout();
                    map.paintNow(map.viewport());
                });
        return smaller(picture(robot, map));
    }

    private static BufferedImage picture(FxRobot robot, Node node) {
        BufferedImage[] taken = new BufferedImage[1];
        robot.interact(() -> taken[0] = SwingFXUtils.fromFXImage(node.snapshot(null, null), null));
        return taken[0];
    }

    /** By means over areas, so that thin lines do not come and go. */
    private static BufferedImage smaller(BufferedImage image) {
        BufferedImage result = new BufferedImage(WIDTH, HEIGHT, BufferedImage.TYPE_INT_RGB);
        for (int y = 0; y < HEIGHT; y++) {
            int y0 = y * image.getHeight() / HEIGHT;
            int y1 = Math.max(y0 + 1, (y + 1) * image.getHeight() / HEIGHT);
            for (int x = 0; x < WIDTH; x++) {
                int x0 = x * image.getWidth() / WIDTH;
                int x1 = Math.max(x0 + 1, (x + 1) * image.getWidth() / WIDTH);
                result.setRGB(x, y, mean(image, x0, x1, y0, y1));
            }
        }
        return result;
    }

    private static int mean(BufferedImage image, int x0, int x1, int y0, int y1) {
        int[] sums = new int[3];
        for (int y = y0; y < y1; y++) {
            for (int x = x0; x < x1; x++) {
                int pixel = image.getRGB(x, y);
                for (int i = 0; i < 3; i++) {
                    sums[i] += pixel >> 8 * i & 255;
                }
            }
        }
        int count = (x1 - x0) * (y1 - y0);
        return sums[0] / count | sums[1] / count << 8 | sums[2] / count << 16;
    }

    private static int blocksApart(BufferedImage one, BufferedImage other) {
        int apart = 0;
        for (int y = 0; y < HEIGHT; y += BLOCK) {
            for (int x = 0; x < WIDTH; x += BLOCK) {
                int x1 = Math.min(WIDTH, x + BLOCK);
                int y1 = Math.min(HEIGHT, y + BLOCK);
                int a = mean(one, x, x1, y, y1);
                int b = mean(other, x, x1, y, y1);
                int most = 0;
                for (int i = 0; i < 3; i++) {
                    most = Math.max(most, Math.abs((a >> 8 * i & 255) - (b >> 8 * i & 255)));
                }
                apart += most > BLOCK_TOLERANCE ? 1 : 0;
            }
        }
        return apart;
    }
}
