package padward.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import javafx.scene.control.DialogPane;
import javafx.scene.control.Label;
import javafx.scene.control.TextField;
import javafx.scene.input.KeyCode;
import javafx.stage.Stage;
import javafx.stage.Window;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import padward.ui.model.WindowModel;

/** Fields that say something else than was asked, and whose the key of Undo is. */
@ExtendWith(ApplicationExtension.class)
class EditedQuestionTest {
    private static final String NET = "pump/level/sample[1]";

    private Stage stage;
    private WindowModel model;

    @Start
    void start(Stage given) {
        stage = given;
        stage.setWidth(1280);
        stage.setHeight(800);
        model = OpenWindow.show(stage);
        model.open(Path.of("fixtures/small/only.design.json"));
    }

    private int kept() {
        return model.keptProperty().get().orElseThrow().entries().size();
    }

    private TextField field(FxRobot robot, String id) {
        return robot.lookup(id).queryAs(TextField.class);
    }

    @Test
    void anAnswerToAnotherQuestionIsGreyAndCannotBeTried(FxRobot robot) throws Exception {
        OpenWindow.ask(robot, model, NET, "J1.3");
        Label note = robot.lookup("#answer-quiet").queryAs(Label.class);
        double mapTop = mapTop(robot);
        assertThat(note.getText()).startsWith("Before driving");
        robot.interact(() -> field(robot, "#net-field").setText("float_hi"));
        assertThat(mapTop(robot)).as("nothing moves").isEqualTo(mapTop);
        assertThat(note.getText())
                .isEqualTo(
                        "This answers pump/level/sample[1] on J1.3. You have changed the question:"
                                + " press Enter to ask it.");
        assertThat(OpenWindow.actions(stage).get("try").possible().get()).isFalse();
        assertThat(robot.lookup("#answer-headline").query().getOpacity()).isLessThan(1);
        if (System.getProperty("pictures") != null) {
            OpenWindow.take(robot, stage, "window-edited");
        }
        robot.interact(() -> field(robot, "#net-field").setText(NET));
        assertThat(note.getText()).startsWith("Before driving");
        assertThat(OpenWindow.actions(stage).get("try").possible().get()).isTrue();
    }

    private static double mapTop(FxRobot robot) {
        WaitForAsyncUtils.waitForFxEvents();
        return robot.lookup("#map").query().localToScene(0, 0).getY();
    }

    /** By keyboard alone: after Keep, Undo takes back the keeping, not the typing. */
    @Test
    void undoBelongsToTheLedgerUnlessTheFieldWasEdited(FxRobot robot) {
        robot.interact(() -> field(robot, "#net-field").requestFocus());
        robot.write(NET).push(KeyCode.ESCAPE).push(KeyCode.TAB);
        robot.write("J2.1").push(KeyCode.ESCAPE).push(KeyCode.ENTER);
        robot.push(KeyCode.CONTROL, KeyCode.T);
        robot.push(KeyCode.CONTROL, KeyCode.K);
        assertThat(kept()).isEqualTo(1);
        assertThat(field(robot, "#pad-field").isFocused()).isTrue();
        robot.push(KeyCode.CONTROL, KeyCode.Z);
        assertThat(kept()).isZero();
        assertThat(field(robot, "#pad-field").getText()).isEqualTo("J2.1");
        robot.push(KeyCode.CONTROL, KeyCode.Y);
        assertThat(kept()).isEqualTo(1);

        robot.push(KeyCode.END).write("4");
        robot.push(KeyCode.CONTROL, KeyCode.Z);
        // How much of the typing is taken back is the toolkit's own affair.
        assertThat(kept()).isEqualTo(1);
        assertThat(field(robot, "#pad-field").getText()).isNotEqualTo("J2.14");
        robot.interact(() -> field(robot, "#pad-field").setText("J2.1"));
        robot.push(KeyCode.CONTROL, KeyCode.Z);
        assertThat(kept()).isZero();
    }

    @Test
    void openingOverAWhatIfAsksInADialog(FxRobot robot) {
        OpenWindow.ask(robot, model, NET, "J1.3");
        robot.interact(() -> model.shown().tryIt());
        robot.interact(model::openDemo);
        WaitForAsyncUtils.waitForFxEvents();
        DialogPane dialog =
                Window.getWindows().stream()
                        .map(w -> w.getScene().getRoot())
                        .filter(r -> r instanceof DialogPane)
                        .map(r -> (DialogPane) r)
                        .findFirst()
                        .orElseThrow();
        assertThat(dialog.getContentText()).startsWith("A what-if is neither kept nor dropped.");
        robot.interact(() -> dialog.getScene().getWindow().hide());
        assertThat(model.shown().whatIfProperty().get()).isPresent();
    }
}
