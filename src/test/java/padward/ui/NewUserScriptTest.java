package padward.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import javafx.scene.Node;
import javafx.scene.control.CheckBox;
import javafx.scene.control.TableView;
import javafx.scene.control.TextField;
import javafx.scene.input.KeyCode;
import javafx.stage.Stage;
import javafx.stage.Window;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import padward.breakout.ask.Answer;
import padward.ui.ledger.SheetWindow;
import padward.ui.model.WindowModel;

/**
 * What a new user wants, in a dozen actions: which pads can I use for {@code level_ok}? Show me the
 * two best, try the second, what happens on the board, keep it, print the sheet, undo. An action is
 * a typed text, a key with its modifiers, or a click.
 */
@ExtendWith(ApplicationExtension.class)
class NewUserScriptTest {
    private static final int MOST_ACTIONS = 12;

    private WindowModel model;
    private int actions;

    @Start
    void start(Stage stage) {
        stage.setWidth(1280);
        stage.setHeight(800);
        model = OpenWindow.show(stage);
    }

    /** The example, with a net of that name, opened as a file of one's own. */
    private void open(FxRobot robot, Path folder) throws IOException {
        Path small = Path.of("fixtures/small");
        for (String name : new String[] {"only.fabric.json", "board.json"}) {
            Files.copy(small.resolve(name), folder.resolve(name));
        }
        Path design = folder.resolve("own.design.json");
        Files.writeString(
                design,
                Files.readString(small.resolve("only.design.json"))
                        .replace("pump/level/sample[1]", "pump/level_ok"));
        robot.interact(() -> model.open(design));
    }

    private void type(FxRobot robot, String text) {
        robot.write(text, 0);
        did();
    }

    private void press(FxRobot robot, KeyCode... keys) {
        robot.push(keys);
        did();
    }

    private void click(FxRobot robot, String id) {
        robot.clickOn(id);
        did();
    }

    private void did() {
        WaitForAsyncUtils.waitForFxEvents();
        WaitForAsyncUtils.waitForFxEvents();
        actions++;
    }

    private static String text(FxRobot robot, String id) {
        Node node = robot.lookup(id).query();
        return node instanceof javafx.scene.control.Labeled labeled ? labeled.getText() : "";
    }

    @Test
    void theWholeJobTakesADozenActions(FxRobot robot, @TempDir Path folder) throws IOException {
        open(robot, folder);
        WaitForAsyncUtils.waitForFxEvents();
        TextField net = robot.lookup("#net-field").queryAs(TextField.class);
        assertThat(net.isFocused()).isTrue();
        type(robot, "level_ok");
        press(robot, KeyCode.ENTER);
        if (model.shown().surveyProperty().get().isEmpty()) {
            // The whole name is offered for the part.
            press(robot, KeyCode.ENTER);
        }
        assertThat(model.shown().surveyProperty().get()).as("all pads are listed").isPresent();
        TableView<Answer> pads = robot.lookup("#routes-table").queryTableView();
        assertThat(pads.getSelectionModel().getSelectedIndices()).containsExactly(0);

        // The two best, side by side.
        press(robot, KeyCode.SHORTCUT, KeyCode.DIGIT1);
        press(robot, KeyCode.SHIFT, KeyCode.DOWN);
        assertThat(pads.getSelectionModel().getSelectedIndices()).containsExactlyInAnyOrder(0, 1);
        String second = pads.getItems().get(1).question().padValue().name();
        click(robot, "#routes-compare");
        assertThat(robot.lookup("#comparison-table").queryAll()).isNotEmpty();
        click(robot, "#comparison-ask-2");
        assertThat(model.shown().answerProperty().get().orElseThrow().question().padValue().name())
                .isEqualTo(second);

        press(robot, KeyCode.SHORTCUT, KeyCode.T);
        assertThat(model.shown().whatIfProperty().get()).isPresent();
        assertThat(text(robot, "#what-if-cost")).as("what happens on the board").isNotBlank();
        CheckBox accept = robot.lookup("#what-if-accept").queryAs(CheckBox.class);
        if (accept.isVisible()) {
            click(robot, "#what-if-accept");
        }
        press(robot, KeyCode.SHORTCUT, KeyCode.K);
        assertThat(model.keptProperty().get().orElseThrow().entries()).hasSize(1);

        press(robot, KeyCode.SHORTCUT, KeyCode.P);
        assertThat(sheets()).isEqualTo(1);
        assertThat(robot.lookup("#print-button").queryAll()).isNotEmpty();
        // The printer's dialog is the system's: one more action, which a test cannot take.
        actions++;
        press(robot, KeyCode.ESCAPE);
        assertThat(sheets()).isZero();
        press(robot, KeyCode.SHORTCUT, KeyCode.Z);
        assertThat(model.keptProperty().get().orElseThrow().entries()).isEmpty();
        assertThat(actions).isLessThanOrEqualTo(MOST_ACTIONS);
    }

    private static long sheets() {
        return Window.getWindows().stream()
                .filter(w -> w.getScene().getRoot() instanceof SheetWindow)
                .count();
    }
}
