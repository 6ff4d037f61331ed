package padward.ui.control;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.concurrent.TimeUnit;
import javafx.scene.Scene;
import javafx.scene.control.Label;
import javafx.scene.text.Text;
import javafx.stage.Stage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import padward.ui.work.HeldBackground;
import padward.ui.work.JobSlot;
import padward.ui.work.Jobs;
import padward.ui.work.Notes;

/** Work is told when it takes a while, and not before. */
@ExtendWith(ApplicationExtension.class)
class WorkBarTest {
    private final HeldBackground held = new HeldBackground();
    private final Jobs jobs = new Jobs(held, new Notes());
    private WorkBar bar;

    @Start
    void start(Stage stage) {
        bar =
                new WorkBar(
                        jobs,
                        Action.of("stop", Action.Group.QUESTION, "Stop", "", "Stops", () -> {}));
        stage.setScene(new Scene(bar));
        stage.show();
    }

    @Test
    void onlyWorkThatTakesAWhileIsTold(FxRobot robot) throws Exception {
        JobSlot slot = new JobSlot(jobs, this);
        robot.interact(() -> slot.start("Asking", progress -> 1, done -> {}));
        robot.interact(() -> assertThat(bar.isVisible()).as("at once").isFalse());
        robot.interact(held::endAll);
        Thread.sleep(300);
        robot.interact(() -> assertThat(bar.isVisible()).as("done before").isFalse());
        long begin = System.nanoTime();
        robot.interact(() -> slot.start("Asking", progress -> 1, done -> {}));
        WaitForAsyncUtils.waitFor(10, TimeUnit.SECONDS, () -> bar.isVisible());
        assertThat(System.nanoTime() - begin).isGreaterThan(TimeUnit.MILLISECONDS.toNanos(140));
        robot.interact(held::endAll);
        robot.interact(() -> assertThat(bar.isVisible()).as("done").isFalse());
    }

    /** A name is not cut while there is room for it. */
    @Test
    void longNamesOfWorkAreWhole(FxRobot robot) throws Exception {
        String name = "Surveying all pads for pump/level/sample[1]";
        robot.interact(
                () -> {
                    bar.getScene().getWindow().setWidth(900);
                    new JobSlot(jobs, this).start(name, progress -> 1, done -> {});
                });
        WaitForAsyncUtils.waitFor(10, TimeUnit.SECONDS, () -> bar.isVisible());
        WaitForAsyncUtils.waitForFxEvents();
        Label doing = robot.lookup("#work-doing").queryAs(Label.class);
        assertThat(doing.getText()).startsWith(name);
        assertThat(((Text) doing.lookup(".text")).getText()).isEqualTo(doing.getText());
        robot.interact(held::endAll);
    }
}
