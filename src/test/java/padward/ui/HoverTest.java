package padward.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javafx.geometry.Bounds;
import javafx.geometry.Point2D;
import javafx.scene.Scene;
import javafx.scene.control.TableRow;
import javafx.scene.control.TableView;
import javafx.scene.image.Image;
import javafx.scene.image.PixelReader;
import javafx.scene.input.MouseEvent;
import javafx.stage.Stage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import padward.breakout.ask.Answer;
import padward.ui.map.MapView;
import padward.ui.model.WindowModel;

/** Where the pointer comes to rest on a pad's row, its way is on the map in that very frame. */
@ExtendWith(ApplicationExtension.class)
class HoverTest {
    private WindowModel model;
    private Scene scene;

    /** What there is to be seen at the end of a frame. */
    private record Frame(Optional<Answer> preview, Image map) {}

    @Start
    void start(Stage stage) {
        stage.setWidth(1280);
        stage.setHeight(800);
        model = OpenWindow.show(stage);
        scene = stage.getScene();
        model.open(Path.of("fixtures/small/only.design.json"));
    }

    @Test
    void theRouteOfTheRowUnderThePointerIsDrawnInTheSameFrame(FxRobot robot) {
        robot.interact(
                () -> {
                    model.shown().netTextProperty().set("pump/level/sample[1]");
                    model.shown().padTextProperty().set("J1.3");
                    model.shown().ask();
                });
        TableView<Answer> table = robot.lookup("#routes-table").queryTableView();
        MapView map = robot.lookup("#map").queryAs(MapView.class);
        // All is seen, so every pad's way is.
        robot.interact(map::fitAll);
        WaitForAsyncUtils.waitForFxEvents();
        Image without = snapshot(robot, map);
        assertThat(model.shown().previewProperty().get()).isEmpty();

        for (int index : new int[] {3, 1}) {
            Answer meant = table.getItems().get(index);
            Frame frame = frameAfterMovingTo(robot, middleOfRow(robot, table, index), map);
            assertThat(frame.preview()).contains(meant);
            assertThat(pixelsApart(without, frame.map())).isGreaterThan(100);
        }
        Frame left = frameAfterMovingTo(robot, above(robot, table), map);
        assertThat(left.preview()).isEmpty();
        assertThat(pixelsApart(without, left.map())).isZero();
    }

    /** Moves the pointer in one leap, and keeps the first frame that ends after it was told of. */
    private Frame frameAfterMovingTo(FxRobot robot, Point2D place, MapView map) {
        List<Frame> frames = new ArrayList<>();
        boolean[] told = new boolean[1];
        Runnable endOfFrame =
                () -> {
                    if (told[0] && frames.isEmpty()) {
                        frames.add(
                                new Frame(
                                        model.shown().previewProperty().get(),
                                        map.snapshot(null, null)));
                    }
                };
        robot.interact(
                () -> {
                    scene.addEventFilter(MouseEvent.MOUSE_MOVED, e -> told[0] = true);
                    scene.addPostLayoutPulseListener(endOfFrame);
                });
        robot.robotContext().getBaseRobot().moveMouse(place);
        WaitForAsyncUtils.waitForFxEvents();
        robot.interact(() -> scene.removePostLayoutPulseListener(endOfFrame));
        assertThat(told[0]).as("the pointer was moved").isTrue();
        assertThat(frames).hasSize(1);
        return frames.get(0);
    }

    private static Point2D middleOfRow(FxRobot robot, TableView<Answer> table, int index) {
        TableRow<?> row =
                robot.from(table).lookup(".table-row-cell").queryAllAs(TableRow.class).stream()
                        .filter(r -> r.getIndex() == index && r.isVisible())
                        .findFirst()
                        .orElseThrow();
        Bounds at = row.localToScreen(row.getLayoutBounds());
        return new Point2D(at.getMinX() + 40, at.getCenterY());
    }

    private static Point2D above(FxRobot robot, TableView<Answer> table) {
        Bounds at = table.localToScreen(table.getLayoutBounds());
        return new Point2D(at.getMinX() + 40, at.getMinY() - 12);
    }

    private static Image snapshot(FxRobot robot, MapView map) {
        Image[] taken = new Image[1];
        robot.interact(() -> taken[0] = map.snapshot(null, null));
        return taken[0];
    }

    private static int pixelsApart(Image one, Image other) {
        PixelReader a = one.getPixelReader();
        PixelReader b = other.getPixelReader();
        int apart = 0;
        for (int y = 0; y < one.getHeight(); y++) {
            for (int x = 0; x < one.getWidth(); x++) {
                apart += a.getArgb(x, y) == b.getArgb(x, y) ? 0 : 1;
            }
        }
        return apart;
    }
}
