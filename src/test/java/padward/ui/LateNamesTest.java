package padward.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import javafx.scene.control.Labeled;
import javafx.scene.control.ListView;
import javafx.scene.control.TextField;
import javafx.scene.image.ImageView;
import javafx.scene.input.KeyCode;
import javafx.stage.Stage;
import javafx.stage.Window;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import padward.ui.draw.Viewport;
import padward.ui.map.MapView;
import padward.ui.model.WindowModel;
import padward.ui.work.HeldBackground;

/** Names are looked up away from the UI thread; what is found for another text comes too late. */
@ExtendWith(ApplicationExtension.class)
class LateNamesTest {
    private final HeldBackground background = new HeldBackground();
    private WindowModel model;
    private Stage stage;

    @Start
    void start(Stage given) {
        stage = given;
        model = PadwardApp.show(stage, background);
        model.open(Path.of("fixtures/small/only.design.json"));
        background.endAll();
    }

    private void ask(FxRobot robot, String net, String pad) {
        robot.interact(
                () -> {
                    model.shown().netTextProperty().set(net);
                    model.shown().padTextProperty().set(pad);
                    model.shown().ask();
                });
    }

    private void end(FxRobot robot, Object job) {
        robot.interact(() -> background.end(job));
    }

    @Test
    void aPartOfANameIsAskedForOnceItIsFound(FxRobot robot) {
        ask(robot, "level/sample[1]", "J1.3");
        assertThat(model.shown().netTextProperty().get()).isEqualTo("level/sample[1]");
        robot.interact(background::endAll);
        assertThat(model.shown().netTextProperty().get()).isEqualTo("pump/level/sample[1]");
        assertThat(net()).isEqualTo("pump/level/sample[1]");
    }

    private String net() {
        return model.shown().answerProperty().get().map(a -> a.question().net().name()).orElse("");
    }

    @Test
    void theLastOfSeveralIsAskedInWhateverOrderTheyEnd(FxRobot robot) {
        for (int order = 0; order < 6; order++) {
            List<Object> jobs = new ArrayList<>();
            for (String net : List.of("level/sample[0]", "no such net", "level/sample[1]")) {
                ask(robot, net, "J1.3");
                jobs.add(background.jobs().get(background.running() - 1));
            }
            int first = order % 3;
            int second = (first + 1 + order / 3) % 3;
            for (int which : new int[] {first, second, 3 - first - second}) {
                end(robot, jobs.get(which));
            }
            robot.interact(background::endAll);
            assertThat(net()).isEqualTo("pump/level/sample[1]");
            assertThat(model.shown().offersProperty().getValue()).isEmpty();
        }
    }

    /** All answers are asked for again then, and this one is owed as well. */
    @Test
    void aQuestionWhoseNamesAreLookedUpOutlivesAnUndo(FxRobot robot) {
        ask(robot, "pump/level/sample[1]", "J1.2");
        robot.interact(background::endAll);
        robot.interact(() -> model.shown().tryIt());
        robot.interact(background::endAll);
        robot.interact(
                () -> {
                    model.shown().acceptedProperty().set(true);
                    model.keep();
                });
        robot.interact(background::endAll);
        assertThat(model.keptProperty().get().orElseThrow().entries()).hasSize(1);
        ask(robot, "alarm/beep", "J1.3");
        robot.interact(background::endAll);
        String first = model.shown().question().toAskedText();
        ask(robot, "level/sample[0]", "J1.3");
        assertThat(model.busyProperty().get()).as("names are looked up").isTrue();
        assertThat(model.shown().question().toAskedText()).isEqualTo(first);
        robot.interact(model::undo);
        robot.interact(background::endAll);
        assertThat(model.shown().question().toAskedText())
                .isEqualTo("pump/level/sample[0] on J1.3");
        assertThat(net()).isEqualTo("pump/level/sample[0]");
        assertThat(model.busyProperty().get()).isFalse();
    }

    @Test
    void whatIsFoundForAnOutdatedTextIsDropped(FxRobot robot) {
        ask(robot, "level/sample[1]", "J1.3");
        robot.interact(() -> model.shown().netTextProperty().set("alarm/beep"));
        robot.interact(background::endAll);
        assertThat(net()).isEmpty();
        assertThat(model.shown().netTextProperty().get()).isEqualTo("alarm/beep");
        ask(robot, "no such net", "J1.3");
        robot.interact(() -> model.shown().padTextProperty().set("J1.2"));
        robot.interact(background::endAll);
        assertThat(model.shown().offersProperty().getValue()).isEmpty();
    }

    @Test
    void theMapStaysWhereTheFindFieldSaysSomethingElseByNow(FxRobot robot) {
        MapView map = robot.lookup("#map").queryAs(MapView.class);
        TextField field = robot.lookup("#find-field").queryAs(TextField.class);
        Viewport before = map.viewport();
        find(robot, field, "x6y7/pad[1]");
        robot.interact(() -> field.setText("pump"));
        robot.interact(background::endAll);
        assertThat(map.viewport()).isEqualTo(before);
        find(robot, field, "nothing of that name");
        robot.interact(() -> field.setText("x6y7/pad[1]"));
        robot.interact(background::endAll);
        assertThat(model.notes().all()).isEmpty();
        find(robot, field, "nothing of that name");
        robot.interact(background::endAll);
        assertThat(model.notes().all()).hasSize(1);
    }

    private void find(FxRobot robot, TextField field, String text) {
        robot.interact(
                () -> {
                    field.requestFocus();
                    field.setText(text);
                });
        robot.push(KeyCode.ENTER);
    }

    @Test
    void theArrowChoosesTheFirstNameAsSoonAsItIsThere(FxRobot robot) {
        TextField field = robot.lookup("#net-field").queryAs(TextField.class);
        robot.interact(
                () -> {
                    field.requestFocus();
                    field.setText("beep");
                });
        robot.push(KeyCode.DOWN);
        assertThat(robot.lookup(".completions").tryQuery()).isEmpty();
        List<Object> jobs = List.copyOf(background.jobs());
        robot.push(KeyCode.DOWN);
        assertThat(List.<Object>copyOf(background.jobs())).as("searched once").isEqualTo(jobs);
        robot.interact(background::endAll);
        ListView<?> list = robot.lookup(".completions").queryListView();
        assertThat(list.getSelectionModel().getSelectedIndex()).isZero();
        robot.push(KeyCode.ENTER);
        assertThat(field.getText()).contains("beep").isNotEqualTo("beep");
    }

    /** A survey made at once flashes no text; a slow one is told of. */
    @Test
    void aSlowSurveyIsToldOfOnlyAfterAWhile(FxRobot robot) throws Exception {
        robot.interact(
                () -> {
                    model.shown().netTextProperty().set("pump/level/sample[1]");
                    model.shown().padTextProperty().set("");
                    model.shown().ask();
                    assertThat(headline(robot)).isEmpty();
                });
        WaitForAsyncUtils.waitFor(
                10, TimeUnit.SECONDS, () -> headline(robot).equals("Surveying the pads …"));
        robot.interact(background::endAll);
        assertThat(headline(robot)).isNotEmpty().doesNotContain("Surveying");
    }

    /** While the sheet is laid out, it does not say that there is nothing to lay out. */
    @Test
    void theSheetSaysOnlyThatItIsLaidOut(FxRobot robot) {
        ask(robot, "pump/level/sample[1]", "J1.2");
        robot.interact(background::endAll);
        robot.interact(() -> model.shown().tryIt());
        robot.interact(background::endAll);
        robot.interact(
                () -> {
                    model.shown().acceptedProperty().set(true);
                    model.keep();
                });
        robot.interact(background::endAll);
        Set<Window> before = Set.copyOf(Window.getWindows());
        robot.interact(() -> OpenWindow.actions(stage).get("sheet").run());
        Window sheet =
                Window.getWindows().stream()
                        .filter(w -> !before.contains(w))
                        .findFirst()
                        .orElseThrow();
        try {
            assertThat(texts(sheet))
                    .anyMatch(t -> t.startsWith("Laying out"))
                    .noneMatch(t -> t.contains("No kept change"));
            robot.interact(background::endAll);
            assertThat(sheet.getScene().getRoot().lookupAll("*"))
                    .anyMatch(n -> n instanceof ImageView v && v.getImage().getWidth() > 500);
            assertThat(texts(sheet)).noneMatch(t -> t.contains("No kept change"));
        } finally {
            robot.interact(sheet::hide);
        }
    }

    private static List<String> texts(Window window) {
        return window.getScene().getRoot().lookupAll("*").stream()
                .filter(n -> n instanceof Labeled && n.isVisible())
                .map(n -> ((Labeled) n).getText())
                .filter(Objects::nonNull)
                .toList();
    }

    private static String headline(FxRobot robot) {
        return robot.lookup("#answer-headline").queryLabeled().getText();
    }
}
