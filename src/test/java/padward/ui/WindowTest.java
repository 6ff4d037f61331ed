package padward.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import javafx.scene.control.Label;
import javafx.scene.control.TextField;
import javafx.scene.input.KeyCode;
import javafx.stage.Stage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import padward.ui.model.WindowModel;
import padward.ui.work.BackgroundWork;

/** The question typed into the window, the answer read from it. */
@ExtendWith(ApplicationExtension.class)
class WindowTest {
    private WindowModel model;

    @Start
    void start(Stage stage) {
        stage.setWidth(1280);
        stage.setHeight(800);
        model = PadwardApp.show(stage, BackgroundWork.immediate());
        model.open(Path.of("fixtures/small/only.design.json"));
    }

    private static void type(FxRobot robot, String field, String text) {
        robot.clickOn(field);
        robot.interact(() -> robot.lookup(field).queryAs(TextField.class).clear());
        robot.write(text, 0);
        robot.push(KeyCode.ESCAPE);
    }

    private static void ask(FxRobot robot, String net, String pad) {
        type(robot, "#net-field", net);
        type(robot, "#pad-field", pad);
        robot.push(KeyCode.ENTER);
        WaitForAsyncUtils.waitForFxEvents();
    }

    private static String text(FxRobot robot, String label) {
        return robot.lookup(label).queryAs(Label.class).getText();
    }

    @Test
    void anOpenRouteIsToldWithItsDelay(FxRobot robot) {
        ask(robot, "pump/level/sample[1]", "J1.2");
        assertThat(text(robot, "#answer-word")).endsWith("Open");
        assertThat(OpenWindow.reasons(robot, model))
                .contains("reaches pin E2 (DBG1)")
                .contains("2.420–3.980 ns");
    }

    @Test
    void aUsedIoRegisterSiteIsTold(FxRobot robot) {
        ask(robot, "pump/level/sample[1]", "J1.3");
        assertThat(text(robot, "#answer-word")).endsWith("Blocked");
        assertThat(OpenWindow.reasons(robot, model))
                .contains(
                        "through IO register site x7y3/outreg[0], which is used by cell"
                                + " pump/run/motor_out.");
    }

    @Test
    void aUsedWireIsTold(FxRobot robot) {
        ask(robot, "pump/level/sample[1]", "J2.1");
        assertThat(OpenWindow.reasons(robot, model))
                .contains("through wire x1y5/run1_w[0], which is used by net alarm/beep.");
    }

    @Test
    void anInputOnlyPadIsTold(FxRobot robot) {
        ask(robot, "pump/level/sample[1]", "x3y0/pad[0]");
        assertThat(text(robot, "#answer-word")).endsWith("No route");
        assertThat(OpenWindow.reasons(robot, model)).contains("input-only");
    }

    @Test
    void aCautionIsInTheOpen(FxRobot robot) {
        ask(robot, "pump/level/sample[1]", "FLOAT_HI");
        assertThat(robot.lookup("#cautions .caution").queryAllAs(Label.class))
                .anyMatch(l -> l.getText().contains("two drivers against each other"));
    }

    @Test
    void namesAreOfferedAndTakenWithTheKeyboard(FxRobot robot) {
        robot.clickOn("#net-field");
        robot.write("*blink[1", 0);
        robot.push(KeyCode.DOWN);
        robot.push(KeyCode.ENTER);
        assertThat(model.shown().netTextProperty().get()).isEqualTo("alarm/blink[1]");
    }

    @Test
    void anUnknownPadIsAMessageAndLosesNothing(FxRobot robot) {
        ask(robot, "pump/level/sample[1]", "J9.9");
        assertThat(text(robot, "#offer-sentence")).contains("J9.9").contains("No pad");
        assertThat(model.shown().padTextProperty().get()).isEqualTo("J9.9");
    }

    @Test
    void aBadFileIsAMessageAndTheDesignStays(FxRobot robot, @TempDir Path folder) throws Exception {
        Path bad = folder.resolve("bad.json");
        Files.writeString(bad, "{\"format\": \"padward-design/1\", \"name\": 7");
        robot.interact(() -> model.open(bad));
        assertThat(text(robot, "#note")).contains("bad.json");
        assertThat(model.openedProperty().get().orElseThrow().design().name())
                .isEqualTo("bilge-pump");
    }
}
