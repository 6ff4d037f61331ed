package padward.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.Optional;
import javafx.scene.control.Label;
import javafx.scene.control.RadioButton;
import javafx.scene.control.TableView;
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
import padward.breakout.ask.Answer;
import padward.design.Design;
import padward.ui.draw.Viewport;
import padward.ui.map.MapView;
import padward.ui.model.WindowModel;
import padward.ui.work.BackgroundWork;

/** What people do in the window, one thing after the other. */
@ExtendWith(ApplicationExtension.class)
class FlowsTest {
    private static final String NET = "pump/level/sample[1]";

    private WindowModel model;

    @Start
    void start(Stage stage) {
        stage.setWidth(1280);
        stage.setHeight(800);
        model = PadwardApp.show(stage, BackgroundWork.immediate());
        model.open(Path.of("fixtures/small/only.design.json"));
    }

    private void ask(FxRobot robot, String pad) {
        OpenWindow.ask(robot, model, NET, pad);
    }

    private static String text(FxRobot robot, String label) {
        return robot.lookup(label).queryAs(Label.class).getText();
    }

    private Design shown() {
        return model.openedProperty().get().orElseThrow().design();
    }

    @Test
    void askBlockedTryKeepUndoRedo(FxRobot robot) {
        Design original = shown();
        ask(robot, "J1.3");
        assertThat(text(robot, "#answer-word")).endsWith("Blocked");
        assertThat(text(robot, "#proof")).startsWith("Proven minimum");
        robot.clickOn("#try-button");
        assertThat(text(robot, "#what-if-edits"))
                .isEqualTo(
                        "What-if: disconnect port motor, remove cell pump/run/motor_out, bring out net "
                                + NET
                                + " on pad x7y3/pad[0] as port out_J1.3");
        assertThat(text(robot, "#what-if-after")).isEqualTo("With it: Open, 2.520–4.150\u00a0ns");
        assertThat(shown()).isSameAs(original);
        robot.clickOn("#what-if-accept");
        robot.clickOn("#keep-button");
        assertThat(shown().findCell("pump/run/motor_out")).isEmpty();
        assertThat(text(robot, "#answer-word")).endsWith("Open");
        assertThat(text(robot, "#kept-text")).contains("1. " + NET + " on x7y3/pad[0]");
        robot.clickOn("#undo-button");
        assertThat(shown()).isSameAs(original);
        assertThat(text(robot, "#answer-word")).endsWith("Blocked");
        robot.clickOn("#redo-button");
        assertThat(shown().findCell("pump/run/motor_out")).isEmpty();
        assertThat(text(robot, "#answer-word")).endsWith("Open");
    }

    @Test
    void aDroppedTrialLeavesNothing(FxRobot robot) {
        Design original = shown();
        ask(robot, "J1.3");
        robot.clickOn("#try-button");
        robot.clickOn("#drop-button");
        assertThat(shown()).isSameAs(original);
        assertThat(model.shown().whatIfProperty().get()).isEmpty();
        assertThat(robot.lookup("#what-if-bar").query().isVisible()).isFalse();
        assertThat(text(robot, "#answer-word")).endsWith("Blocked");
    }

    @Test
    void aMovedNetIsToldInTheTrial(FxRobot robot) {
        ask(robot, "x0y5/pad[0]");
        assertThat(robot.lookup("#option-0").queryAs(RadioButton.class).getText())
                .startsWith("reroute net alarm/beep");
        robot.clickOn("#try-button");
        assertThat(text(robot, "#what-if-after")).startsWith("With it: Open");
        robot.clickOn("#keep-button");
        assertThat(shown().findNet("alarm/beep")).isPresent();
        assertThat(text(robot, "#answer-word")).endsWith("Open");
    }

    @Test
    void routesOutAreListedPreviewedAndAskedFor(FxRobot robot) {
        ask(robot, "J1.3");
        TableView<Answer> table = robot.lookup("#routes-table").queryTableView();
        assertThat(table.getItems()).hasSize(shown().fabric().pads().size());
        robot.interact(() -> table.getSelectionModel().select(2));
        Answer third = table.getItems().get(2);
        assertThat(model.shown().previewProperty().get()).contains(third);
        robot.interact(table::requestFocus);
        robot.push(KeyCode.ENTER);
        assertThat(model.shown().padTextProperty().get())
                .isEqualTo(third.question().padValue().name());
        assertThat(text(robot, "#answer-word")).endsWith("Open");
        assertThat(model.shown().answerProperty().get().orElseThrow().question().pad())
                .isEqualTo(third.question().pad());
    }

    @Test
    void aNameIsFoundAndFlownTo(FxRobot robot) {
        MapView map = robot.lookup("#map").queryAs(MapView.class);
        Viewport before = map.viewport();
        robot.clickOn("#find-field");
        robot.write("alarm/beep", 0);
        robot.push(KeyCode.ESCAPE);
        robot.push(KeyCode.ENTER);
        WaitForAsyncUtils.waitForFxEvents();
        Viewport there = map.viewport();
        assertThat(there.scale()).isGreaterThan(before.scale());
        for (int vertex : shown().findNet("alarm/beep").orElseThrow().route().toVertices()) {
            int tile = shown().fabric().tile(vertex);
            double x = there.screenX(tile % shown().fabric().columns() + 0.5);
            double y = there.screenY(tile / shown().fabric().columns() + 0.5);
            assertThat(x).as("all of the net is seen").isBetween(0.0, there.width());
            assertThat(y).as("all of the net is seen").isBetween(0.0, there.height());
        }
        robot.clickOn("#back-button");
        assertThat(map.viewport().centreX()).isEqualTo(before.centreX());
        robot.interact(() -> robot.lookup("#find-field").queryAs(TextField.class).setText("zzz"));
        robot.clickOn("#find-field").push(KeyCode.ESCAPE).push(KeyCode.ENTER);
        assertThat(text(robot, "#note")).contains("Nothing on the map is named “zzz”");
    }

    @Test
    void theWholeJobWithKeysAlone(FxRobot robot) {
        robot.clickOn("#net-field");
        robot.write(NET, 0);
        robot.push(KeyCode.ESCAPE);
        robot.push(KeyCode.TAB);
        robot.write("J1.3", 0);
        robot.push(KeyCode.ESCAPE);
        robot.push(KeyCode.ENTER);
        assertThat(text(robot, "#answer-word")).endsWith("Blocked");
        robot.push(KeyCode.SHORTCUT, KeyCode.T);
        assertThat(model.shown().whatIfProperty().get()).isPresent();
        robot.interact(() -> robot.lookup("#what-if-accept").query().requestFocus());
        robot.push(KeyCode.SPACE);
        robot.interact(() -> robot.lookup("#keep-button").query().requestFocus());
        robot.push(KeyCode.SPACE);
        assertThat(text(robot, "#answer-word")).endsWith("Open");
        robot.interact(() -> robot.lookup("#map").query().requestFocus());
        robot.push(KeyCode.SHORTCUT, KeyCode.Z);
        assertThat(text(robot, "#answer-word")).endsWith("Blocked");
    }

    @Test
    void anotherDesignStartsAfresh(FxRobot robot) {
        ask(robot, "J1.3");
        robot.clickOn("#try-button");
        robot.clickOn("#what-if-accept");
        robot.clickOn("#keep-button");
        robot.interact(() -> model.open(Path.of("fixtures/small/around.design.json")));
        assertThat(model.shown().answerProperty().get()).isEqualTo(Optional.empty());
        assertThat(model.shown().surveyProperty().get()).isEqualTo(Optional.empty());
        assertThat(model.history().nextUndoProperty().get()).isEmpty();
        assertThat(model.keptProperty().get().orElseThrow().entries()).isEmpty();
    }

    @Test
    void anOpenAnswerIsBroughtOutAndKept(FxRobot robot) {
        ask(robot, "J1.2");
        robot.clickOn("#bring-out-button");
        assertThat(text(robot, "#what-if-after")).startsWith("With it: Open");
        robot.clickOn("#keep-button");
        assertThat(OpenWindow.reasons(robot, model)).contains("is already on pin E2 (DBG1)");
        assertThat(robot.lookup("#bring-out-button").query().isVisible()).isFalse();
        assertThat(shown().findNet(NET).orElseThrow().sinks()).hasSize(2);
    }

    @Test
    void whatIsKeptIsSavedAndOpenedAgain(FxRobot robot, @TempDir Path folder) {
        ask(robot, "J1.3");
        robot.clickOn("#try-button");
        robot.clickOn("#what-if-accept");
        robot.clickOn("#keep-button");
        Path ledger = folder.resolve("ledger.json");
        robot.interact(() -> model.design().saveLedger(ledger));
        assertThat(ledger).exists();
        assertThat(text(robot, "#status")).startsWith("Saved 1 kept");
        robot.interact(() -> model.open(Path.of("fixtures/small/only.design.json")));
        assertThat(shown().findCell("pump/run/motor_out")).isPresent();
        robot.interact(() -> model.openLedger(ledger));
        assertThat(shown().findCell("pump/run/motor_out")).isEmpty();
        assertThat(text(robot, "#kept-text")).contains(NET + " on x7y3/pad[0]");
        robot.clickOn("#undo-button");
        assertThat(shown().findCell("pump/run/motor_out")).isPresent();
        robot.interact(() -> model.open(Path.of("fixtures/small/around.design.json")));
        robot.interact(() -> model.openLedger(Path.of("fixtures/small/board.json")));
        assertThat(text(robot, "#note")).contains("padward-ledger/1");
    }
}
