package padward.ui.play;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import javafx.scene.control.Button;
import javafx.scene.control.ChoiceBox;
import javafx.scene.control.Slider;
import javafx.stage.Stage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import padward.fabric.delay.Corner;
import padward.lesson.UserAction;
import padward.ui.lesson.LessonWindow;
import padward.ui.map.MapView;
import padward.ui.scene.MapOverlay;

/** Searches played in the real window. */
@ExtendWith(ApplicationExtension.class)
class StepsWindowTest {
    private static final String NET = "pump/level/sample[1]";

    private LessonWindow window;

    @Start
    void start(Stage stage) throws Exception {
        window = LessonWindow.show(stage, Files.createTempDirectory("learners"), 1280, 800);
    }

    private static Optional<MapOverlay> overlay(FxRobot robot) {
        return robot.lookup("#map").queryAs(MapView.class).mapModel().overlayProperty().get();
    }

    private static int number(FxRobot robot, String label) {
        return Integer.parseInt(LessonWindow.text(robot, label).split(" ")[0].replace(",", ""));
    }

    private void kind(FxRobot robot, PlayKind kind) {
        robot.interact(
                () -> {
                    @SuppressWarnings("unchecked")
                    ChoiceBox<PlayKind> box = robot.lookup("#steps-kind").queryAs(ChoiceBox.class);
                    box.setValue(kind);
                });
        WaitForAsyncUtils.waitForFxEvents();
    }

    @Test
    void searchesStepForwardAndBackSideBySide(FxRobot robot) {
        window.tab(robot, "steps");
        assertThat(LessonWindow.text(robot, "#steps-empty")).startsWith("Ask a question");
        window.act(robot, new UserAction.Ask(NET, "J1.4", Corner.SLOW));
        for (int i = 0; i < 5; i++) {
            window.fire(robot, "#steps-next");
        }
        assertThat(number(robot, "#steps-a-star-settled")).isEqualTo(5);
        assertThat(number(robot, "#steps-dijkstra-settled")).isEqualTo(5);
        assertThat(LessonWindow.text(robot, "#steps-text")).startsWith("Settles ");
        assertThat(overlay(robot)).isPresent();
        window.fire(robot, "#steps-back");
        assertThat(number(robot, "#steps-a-star-settled")).isEqualTo(4);
        window.fire(robot, "#steps-end");
        assertThat(LessonWindow.text(robot, "#steps-text")).contains("The pad is reached");
        assertThat(LessonWindow.text(robot, "#steps-saved")).startsWith("The estimate saves ");
        int star = number(robot, "#steps-a-star-end");
        int plain = number(robot, "#steps-dijkstra-end");
        assertThat(star).isLessThan(plain);
        kind(robot, PlayKind.DIJKSTRA);
        window.fire(robot, "#steps-end");
        assertThat(number(robot, "#steps-dijkstra-settled")).isEqualTo(plain);
        window.fire(robot, "#steps-start");
        assertThat(overlay(robot)).isEmpty();
        assertThat(number(robot, "#steps-dijkstra-settled")).isZero();
    }

    @Test
    void thePlayRunsToTheEndAndStops(FxRobot robot) throws Exception {
        window.tab(robot, "steps");
        window.act(robot, new UserAction.Ask(NET, "J1.4", Corner.SLOW));
        Slider speed = robot.lookup("#steps-speed").queryAs(Slider.class);
        robot.interact(() -> speed.setValue(1));
        window.fire(robot, "#steps-play");
        Button play = robot.lookup("#steps-play").queryAs(Button.class);
        assertThat(play.getText()).isEqualTo("Pause");
        robot.interact(() -> speed.setValue(StepsModel.MAX_SPEED));
        WaitForAsyncUtils.waitFor(20, TimeUnit.SECONDS, () -> play.getText().equals("Play"));
        assertThat(LessonWindow.text(robot, "#steps-text")).contains("The pad is reached");
    }

    @Test
    void theFirstOccupiedSiteIsFound(FxRobot robot) {
        window.tab(robot, "steps");
        window.act(robot, new UserAction.Ask(NET, "J1.3", Corner.SLOW));
        window.fire(robot, "#steps-occupied");
        assertThat(LessonWindow.text(robot, "#steps-text")).contains("through 1 occupied stretch");
        @SuppressWarnings("unchecked")
        ChoiceBox<String> part = robot.lookup("#steps-part").queryAs(ChoiceBox.class);
        assertThat(part.getItems()).hasSize(2);
        robot.interact(() -> part.getSelectionModel().select(0));
        window.fire(robot, "#steps-occupied");
        assertThat(LessonWindow.text(robot, "#steps-text")).contains("may not be entered");
    }

    @Test
    void labelsAndRoundsArePlayed(FxRobot robot) {
        window.tab(robot, "steps");
        window.act(robot, new UserAction.Ask(NET, "J1.3", Corner.SLOW));
        kind(robot, PlayKind.LABELS);
        assertThat(LessonWindow.text(robot, "#steps-text"))
                .contains("at least 1 obstacle must be removed");
        window.fire(robot, "#steps-end");
        assertThat(LessonWindow.text(robot, "#steps-text"))
                .isEqualTo("Arrived: removing cell pump/run/motor_out opens a route.");
        kind(robot, PlayKind.ROUNDS);
        window.fire(robot, "#steps-example");
        window.fire(robot, "#steps-next");
        assertThat(LessonWindow.text(robot, "#steps-text"))
                .contains("Round 1: routed signal1, signal2, signal3")
                .contains("becomes more expensive");
        window.fire(robot, "#steps-end");
        assertThat(LessonWindow.text(robot, "#steps-text")).contains("No wire is shared any more");
        window.tab(robot, "routes");
        assertThat(overlay(robot)).isEmpty();
    }
}
