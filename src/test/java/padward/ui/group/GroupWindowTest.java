package padward.ui.group;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.TabPane;
import javafx.scene.control.TextField;
import javafx.scene.control.ToggleButton;
import javafx.scene.input.KeyCode;
import javafx.stage.Stage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import padward.ui.OpenWindow;
import padward.ui.model.WindowModel;

/**
 * Groups in the window. With {@code -Dpictures=FOLDER} it takes pictures too, of another design if
 * {@code -Dpicture.design}, {@code -Dpicture.nets} and {@code -Dpicture.pads} say so.
 */
@ExtendWith(ApplicationExtension.class)
class GroupWindowTest {
    private static final String DESIGN =
            System.getProperty("picture.design", "fixtures/small/only.design.json");
    private static final String NETS =
            System.getProperty("picture.nets", "pump/level/sample[*], alarm/blink[*]");
    private static final String PADS = System.getProperty("picture.pads", "any");

    private WindowModel model;
    private Stage stage;

    @Start
    void start(Stage given) {
        stage = given;
        model = OpenWindow.show(stage);
        stage.setWidth(1500);
        stage.setHeight(950);
        model.open(Path.of(DESIGN));
    }

    @Test
    void aGroupIsLaidPinnedMatchedAndKept(FxRobot robot) throws Exception {
        robot.interact(
                () -> {
                    TabPane tabs = robot.lookup("#panels").queryAs(TabPane.class);
                    tabs.getTabs().stream()
                            .filter(t -> t.getId().equals("group-tab"))
                            .forEach(t -> tabs.getSelectionModel().select(t));
                });
        WaitForAsyncUtils.waitForFxEvents();
        take(robot, "group-empty");
        robot.interact(
                () -> {
                    robot.lookup("#group-nets").queryAs(TextField.class).setText(NETS);
                    robot.lookup("#group-pads").queryAs(TextField.class).setText(PADS);
                    robot.lookup("#group-route").queryAs(Button.class).fire();
                });
        take(robot, "group-routed");
        String routed = robot.lookup("#group-totals").queryAs(Label.class).getText();
        assertThat(routed).contains("of").contains("routed");
        Node matrix = robot.lookup("#group-matrix").query();
        robot.interact(matrix::requestFocus);
        robot.press(KeyCode.RIGHT).release(KeyCode.RIGHT);
        robot.press(KeyCode.ENTER).release(KeyCode.ENTER);
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(robot.lookup("#group-message").queryAs(Label.class).getText()).isNotBlank();
        robot.interact(() -> robot.lookup("#group-match").queryAs(Button.class).fire());
        take(robot, "group-matched");
        assertThat(robot.lookup("#group-totals").queryAs(Label.class).getText())
                .contains("ns before matching");
        robot.interact(
                () -> robot.lookup("#dark-button").queryAs(ToggleButton.class).setSelected(true));
        take(robot, "group-dark");
        robot.interact(
                () -> robot.lookup("#dark-button").queryAs(ToggleButton.class).setSelected(false));
        int before = model.keptProperty().get().orElseThrow().entries().size();
        robot.interact(() -> robot.lookup("#group-keep").queryAs(Button.class).fire());
        assertThat(model.keptProperty().get().orElseThrow().entries()).hasSize(before + 1);
        robot.interact(model::undo);
        assertThat(model.keptProperty().get().orElseThrow().entries()).hasSize(before);
    }

    private void take(FxRobot robot, String name) throws Exception {
        WaitForAsyncUtils.waitForFxEvents();
        String folder = System.getProperty("pictures", "");
        if (folder.isEmpty()) {
            return;
        }
        OpenWindow.take(robot, stage, name);
    }
}
