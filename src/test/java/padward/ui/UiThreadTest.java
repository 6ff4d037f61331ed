package padward.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import javafx.application.Platform;
import javafx.geometry.Point2D;
import javafx.scene.control.TextField;
import javafx.scene.input.KeyCode;
import javafx.scene.input.MouseButton;
import javafx.stage.Stage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import padward.ui.map.MapView;
import padward.ui.model.WindowModel;
import padward.ui.work.BackgroundWork;

/**
 * The window never freezes: in each flow on the workbench's design, the UI thread works for at the
 * most 50 ms at a time. Each flow is done once before, so that loading classes does not count.
 */
@ExtendWith(ApplicationExtension.class)
class UiThreadTest {
    private static final double MOST_MILLIS = 50;

    private Stage stage;
    private WindowModel model;
    private String net = "";

    @Start
    void start(Stage given) {
        stage = given;
        stage.setWidth(1280);
        stage.setHeight(800);
        model = PadwardApp.show(stage, BackgroundWork.threaded(Platform::runLater));
    }

    @Test
    void noFlowKeepsTheThreadOfTheWindow(FxRobot robot) throws Exception {
        robot.interact(() -> model.open(Path.of("fixtures/workbench/design.json.gz")));
        waitForWork();
        net = model.openedProperty().get().orElseThrow().design().nets().get(200).name();
        Map<String, Runnable> flows = new LinkedHashMap<>();
        flows.put("typing", () -> type(robot));
        flows.put("asking", () -> ask(robot));
        flows.put("panning with keys", () -> pan(robot));
        flows.put("dragging the map", () -> drag(robot));
        flows.put("zooming", () -> zoom(robot));
        flows.put("switching panels", () -> panels(robot));
        flows.put("filtering the pads", () -> filter(robot));
        flows.put("trying", () -> tryIt(robot));
        List<String> slow = new ArrayList<>();
        for (int round = 0; round < 2; round++) {
            for (Map.Entry<String, Runnable> flow : flows.entrySet()) {
                UiThreadWatch.Longest longest = UiThreadWatch.during(flow.getValue());
                if (round == 1 && longest.millis() > MOST_MILLIS) {
                    slow.add(
                            "%s: %.1f ms%n    %s"
                                    .formatted(flow.getKey(), longest.millis(), longest.where()));
                }
            }
        }
        assertThat(slow).isEmpty();
    }

    private void waitForWork() {
        WaitForAsyncUtils.waitForFxEvents();
        try {
            WaitForAsyncUtils.waitFor(60, TimeUnit.SECONDS, () -> model.jobs().running().isEmpty());
        } catch (TimeoutException late) {
            throw new AssertionError(late);
        }
        WaitForAsyncUtils.waitForFxEvents();
    }

    private void type(FxRobot robot) {
        TextField field = robot.lookup("#net-field").queryAs(TextField.class);
        robot.interact(field::requestFocus);
        robot.interact(field::clear);
        robot.write(net.substring(0, Math.min(6, net.length())), 0);
        robot.push(KeyCode.ESCAPE);
    }

    private void ask(FxRobot robot) {
        robot.interact(
                () -> {
                    model.shown().netTextProperty().set(net);
                    model.shown().padTextProperty().set("J1.1");
                    model.shown().ask();
                });
        waitForWork();
    }

    private void pan(FxRobot robot) {
        robot.interact(() -> robot.lookup("#map").query().requestFocus());
        robot.push(KeyCode.RIGHT).push(KeyCode.DOWN).push(KeyCode.LEFT).push(KeyCode.UP);
    }

    private void drag(FxRobot robot) {
        MapView map = robot.lookup("#map").queryAs(MapView.class);
        Point2D from = map.localToScreen(200, 100);
        robot.moveTo(from).press(MouseButton.PRIMARY);
        robot.moveTo(from.add(80, 40)).moveTo(from).release(MouseButton.PRIMARY);
    }

    private void zoom(FxRobot robot) {
        robot.interact(() -> robot.lookup("#map").query().requestFocus());
        for (int i = 0; i < 4; i++) {
            robot.push(KeyCode.ADD);
        }
        for (int i = 0; i < 4; i++) {
            robot.push(KeyCode.SUBTRACT);
        }
    }

    private void panels(FxRobot robot) {
        for (String panel :
                new String[] {
                    "nets", "steps", "lessons", "exercises", "kept", "group", "watch", "routes"
                }) {
            robot.interact(() -> OpenWindow.actions(stage).get("show-" + panel).run());
            waitForWork();
        }
    }

    private void filter(FxRobot robot) {
        robot.interact(
                () -> robot.lookup("#routes-filter-text").queryAs(TextField.class).setText("bank"));
        robot.interact(
                () -> robot.lookup("#routes-filter-text").queryAs(TextField.class).setText(""));
    }

    private void tryIt(FxRobot robot) {
        ask(robot);
        robot.interact(model.shown()::tryIt);
        waitForWork();
        robot.interact(model::drop);
    }
}
