package padward.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import javafx.scene.Node;
import javafx.scene.control.Hyperlink;
import javafx.scene.control.Labeled;
import javafx.scene.control.TabPane;
import javafx.stage.Stage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import padward.ui.model.WindowModel;

/** The first minute: what the window offers before anything is asked. */
@ExtendWith(ApplicationExtension.class)
class StartPageTest {
    private Stage stage;
    private WindowModel model;

    @Start
    void start(Stage given) {
        stage = given;
        stage.setWidth(1280);
        stage.setHeight(800);
        model = OpenWindow.show(stage);
    }

    private static boolean shown(FxRobot robot, String id) {
        return robot.lookup(id).queryAll().stream().anyMatch(Node::isVisible);
    }

    @Test
    void theDemosQuestionIsReadyToPress(FxRobot robot) {
        assertThat(shown(robot, "#start-ask")).as("nothing is open").isFalse();
        Labeled kept = robot.lookup("#kept-text").queryAs(Labeled.class);
        assertThat(kept.getText()).isEqualTo("No design is open.");
        robot.clickOn("#start-demo");
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(robot.lookup("#start-what-is-open").queryAs(Labeled.class).getText())
                .contains("demo");
        assertThat(kept.getText()).startsWith("Nothing is kept");
        robot.clickOn("#start-ask");
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(model.shown().answerProperty().get()).isPresent();
        assertThat(shown(robot, "#start-page")).isFalse();
        assertThat(shown(robot, "#routes-table")).isTrue();
        robot.interact(model::openDemo);
        assertThat(shown(robot, "#start-page")).as("nothing is asked again").isTrue();
    }

    /** The nets of the first lesson's design are the demo's, but what is learned is not. */
    @Test
    void aLessonsDesignIsNotCalledTheDemo(FxRobot robot) {
        robot.clickOn("#start-lesson");
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(
                        model.openedProperty()
                                .get()
                                .orElseThrow()
                                .design()
                                .findNet("pump/level/sample[1]"))
                .isPresent();
        robot.interact(
                () -> ((TabPane) robot.lookup("#panels").query()).getSelectionModel().select(0));
        assertThat(shown(robot, "#start-page")).isFalse();
        assertThat(shown(robot, "#routes-table")).isTrue();
    }

    @Test
    void aPadAloneIsAskedToo(FxRobot robot) {
        robot.interact(model::openDemo);
        assertThat(shown(robot, "#start-page")).isTrue();
        robot.interact(
                () -> {
                    model.shown().padTextProperty().set("J1.3");
                    model.shown().ask();
                });
        assertThat(shown(robot, "#start-page")).isFalse();
    }

    @Test
    void theFirstLessonBeginsAtOnce(FxRobot robot) {
        robot.clickOn("#start-lesson");
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(model.openedProperty().get()).isPresent();
        assertThat(shown(robot, "#lesson-title")).isTrue();
    }

    @Test
    void designsOpenedBeforeAreOfferedAndOnesOwnIsNotTheDemo(FxRobot robot) {
        robot.interact(() -> model.open(Path.of("fixtures/small/around.design.json")));
        assertThat(shown(robot, "#start-page")).as("a design of one's own").isFalse();
        robot.interact(model::openDemo);
        Hyperlink link =
                (Hyperlink) robot.lookup("#start-recent .hyperlink").queryAll().iterator().next();
        assertThat(link.getText()).isEqualTo("around.design.json");
        robot.clickOn(link);
        assertThat(model.openedProperty().get().orElseThrow().design().fabric().info().name())
                .isNotEmpty();
        assertThat(model.design().fileProperty().get()).isPresent();
    }

    /** A lesson is begun over somebody's work, which is one press away afterwards. */
    @Test
    void afterALessonTheWorkIsThereAgain(FxRobot robot) {
        robot.interact(model::openDemo);
        OpenWindow.ask(robot, model, "pump/level/sample[1]", "J1.2");
        robot.interact(
                () -> {
                    model.shown().tryIt();
                    model.keep();
                    model.questions().open("alarm/beep");
                    model.shown().padTextProperty().set("E1");
                    model.shown().ask();
                    OpenWindow.actions(stage).get("first-lesson").run();
                });
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(model.keptProperty().get().orElseThrow().entries()).isEmpty();
        assertThat(robot.lookup("#lesson-back").queryButton().getText())
                .isEqualTo("Back to the demo");
        robot.clickOn("#lesson-back");
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(model.keptProperty().get().orElseThrow().entries()).hasSize(1);
        assertThat(model.questions().all()).hasSize(2);
        assertThat(model.shown().question().title()).isEqualTo("beep on E1");
        assertThat(model.shown().answerProperty().get()).isPresent();
        assertThat(shown(robot, "#lesson-back")).as("nothing to go back to").isFalse();
    }

    @Test
    void aLessonEndsOnlyWhenTheUserAgreesToGoBack(FxRobot robot) {
        robot.interact(
                () -> {
                    model.openDemo();
                    OpenWindow.actions(stage).get("first-lesson").run();
                });
        OpenWindow.ask(robot, model, "pump/level/sample[1]", "J1.2");
        robot.interact(() -> model.shown().tryIt());
        robot.clickOn("#lesson-back").clickOn("Cancel");
        assertThat(model.shown().whatIfProperty().get()).isPresent();
        assertThat(shown(robot, "#lesson-title")).as("the lesson goes on").isTrue();
        robot.clickOn("#lesson-back").clickOn("Drop and open");
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(model.design().isDemo()).isTrue();
        assertThat(shown(robot, "#lesson-title")).as("the lesson is left").isFalse();
    }

    @Test
    void afterALessonAFileIsOpenedAgainByItsName(FxRobot robot) {
        robot.interact(
                () -> {
                    model.open(Path.of("fixtures/small/around.design.json"));
                    OpenWindow.actions(stage).get("first-lesson").run();
                    OpenWindow.actions(stage).get("first-lesson").run();
                });
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(robot.lookup("#lesson-back").queryButton().getText())
                .isEqualTo("Back to around.design.json");
        robot.clickOn("#lesson-back");
        assertThat(model.design().fileProperty().get().orElseThrow())
                .hasFileName("around.design.json");
    }
}
