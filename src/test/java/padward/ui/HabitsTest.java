package padward.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import javafx.scene.control.ChoiceBox;
import javafx.scene.control.Spinner;
import javafx.scene.control.TabPane;
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
import padward.fabric.Corner;
import padward.ui.ledger.SheetWindow;
import padward.ui.model.WindowModel;

/** What every desktop program does alike. */
@ExtendWith(ApplicationExtension.class)
class HabitsTest {
    private static final String NET = "pump/level/sample[1]";

    private Stage stage;
    private WindowModel model;

    @Start
    void start(Stage given) {
        stage = given;
        model = OpenWindow.show(stage);
        model.open(Path.of("fixtures/small/only.design.json"));
    }

    @Test
    void arrowsChooseInAListOfChoices(FxRobot robot) {
        ChoiceBox<?> corner = robot.lookup("#corner").queryAs(ChoiceBox.class);
        robot.interact(corner::requestFocus);
        robot.push(KeyCode.DOWN);
        assertThat(model.shown().cornerProperty().get()).isEqualTo(Corner.FAST);
        assertThat(corner.isFocused()).isTrue();
        robot.push(KeyCode.DOWN).push(KeyCode.UP);
        assertThat(model.shown().cornerProperty().get()).isEqualTo(Corner.SLOW);
        assertThat(corner.isFocused()).isTrue();
    }

    @Test
    void whatIsNoNumberIsReplacedByTheOneBefore(FxRobot robot) {
        TabPane panels = robot.lookup("#panels").queryAs(TabPane.class);
        robot.interact(() -> panels.getSelectionModel().selectLast());
        Spinner<?> tolerance = robot.lookup("#group-tolerance").queryAs(Spinner.class);
        for (String text : new String[] {"abc", "", "1,5x", "99999999999"}) {
            robot.interact(
                    () -> {
                        tolerance.getEditor().setText(text);
                        tolerance.commitValue();
                    });
            assertThat(tolerance.getEditor().getText()).as(text).isEqualTo("150");
        }
        robot.interact(
                () -> {
                    tolerance.getEditor().setText(" 200 ");
                    tolerance.commitValue();
                });
        assertThat(tolerance.getValue()).isEqualTo(200);
    }

    @Test
    void aPartOfANameFindsTheOnlyThingThatHasIt(FxRobot robot) {
        TextField find = robot.lookup("#find-field").queryAs(TextField.class);
        robot.interact(find::requestFocus);
        robot.write("motor_o").push(KeyCode.ESCAPE).push(KeyCode.ENTER);
        assertThat(model.notes().all()).isEmpty();
    }

    @Test
    void aNetAloneAsksForAllPads(FxRobot robot) {
        robot.interact(() -> robot.lookup("#net-field").query().requestFocus());
        robot.write(NET).push(KeyCode.ESCAPE).push(KeyCode.ENTER);
        assertThat(model.notes().all()).isEmpty();
        assertThat(model.shown().answerProperty().get()).isEmpty();
        assertThat(model.shown().surveyProperty().get().orElseThrow().net().name()).isEqualTo(NET);
        assertThat(model.shown().question().title()).isEqualTo("sample[1] on any pad");
        assertThat(model.shown().question().isOwed()).isFalse();
        // It is surveyed again when the design changes.
        OpenWindow.ask(robot, model, NET, "J1.3");
        robot.interact(
                () -> {
                    model.shown().tryIt();
                    model.keep();
                    model.shown().padTextProperty().set("");
                    model.shown().ask();
                    model.undo();
                });
        assertThat(model.shown().surveyProperty().get().orElseThrow().answers().get(0))
                .satisfies(
                        a ->
                                assertThat(a.question().design())
                                        .isSameAs(
                                                model.openedProperty()
                                                        .get()
                                                        .orElseThrow()
                                                        .design()));
    }

    @Test
    void escapeClosesTheSheetAndThereIsOnlyOne(FxRobot robot) {
        robot.interact(() -> SheetWindow.open(model, stage));
        robot.interact(() -> SheetWindow.open(model, stage));
        assertThat(sheets()).isEqualTo(1);
        robot.push(KeyCode.ESCAPE);
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(sheets()).isZero();
    }

    private static long sheets() {
        return Window.getWindows().stream()
                .filter(w -> w.getScene().getRoot() instanceof SheetWindow)
                .count();
    }

    /** A fault of a listener is a note, not a line in a terminal that nobody sees. */
    @Test
    void aFaultThatNothingCatchesIsANote(FxRobot robot) {
        javafx.application.Platform.runLater(
                () -> {
                    throw new IllegalStateException("a fault made by the test");
                });
        WaitForAsyncUtils.waitForFxEvents();
        WaitForAsyncUtils.clearExceptions();
        assertThat(model.notes().all().get(0).text()).contains("a fault made by the test");
    }
}
