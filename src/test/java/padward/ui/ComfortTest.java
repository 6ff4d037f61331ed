package padward.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import javafx.application.Platform;
import javafx.scene.control.Label;
import javafx.scene.control.ListView;
import javafx.scene.control.ProgressBar;
import javafx.scene.control.TabPane;
import javafx.scene.control.TableView;
import javafx.scene.input.Clipboard;
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
import padward.ui.control.Action;
import padward.ui.model.WindowModel;
import padward.ui.work.BackgroundWork;

/** Tabs, command search, notes, progress, text size: as a person uses them. */
@ExtendWith(ApplicationExtension.class)
class ComfortTest {
    private static final String NET = "pump/level/sample[1]";

    /** Work waits, reporting two fifths, until it is let go or stopped. */
    private volatile boolean hold;

    private WindowModel model;

    private Stage window;

    @Start
    void start(Stage stage) {
        window = stage;
        stage.setWidth(1280);
        stage.setHeight(800);
        BackgroundWork threads = BackgroundWork.threaded(Platform::runLater);
        model = PadwardApp.show(stage, holding(threads));
        model.open(Path.of("fixtures/small/only.design.json"));
    }

    private BackgroundWork holding(BackgroundWork background) {
        return new BackgroundWork() {
            @Override
            public <T> Job start(
                    Work<T> work, Watcher watcher, Consumer<T> done, Consumer<Exception> failed) {
                return background.start(
                        progress -> {
                            while (hold && !progress.cancelled()) {
                                progress.report(0.4, "held up");
                                Thread.sleep(5);
                            }
                            return work.run(progress);
                        },
                        watcher,
                        done,
                        failed);
            }
        };
    }

    private void settle() throws Exception {
        WaitForAsyncUtils.waitFor(20, TimeUnit.SECONDS, () -> model.jobs().running().isEmpty());
        WaitForAsyncUtils.waitForFxEvents();
    }

    private void ask(FxRobot robot, String net, String pad) throws Exception {
        robot.interact(
                () -> {
                    model.shown().netTextProperty().set(net);
                    model.shown().padTextProperty().set(pad);
                    model.shown().ask();
                });
        settle();
    }

    private static String text(FxRobot robot, String label) {
        return robot.lookup(label).queryAs(Label.class).getText();
    }

    @Test
    void severalQuestionsStandAsTabs(FxRobot robot) throws Exception {
        settle();
        TabPane tabs = robot.lookup("#question-tabs").queryAs(TabPane.class);
        assertThat(tabs.isVisible()).isFalse();
        ask(robot, NET, "J1.3");
        robot.push(KeyCode.SHORTCUT, KeyCode.N);
        assertThat(tabs.isVisible()).isTrue();
        assertThat(tabs.getTabs()).hasSize(2);
        assertThat(robot.lookup("#net-field").query().isFocused()).isTrue();
        ask(robot, NET, "J1.2");
        assertThat(text(robot, "#answer-word")).endsWith("Open");
        assertThat(tabs.getTabs().get(0).getText()).isEqualTo("sample[1] on J1.3: blocked");
        assertThat(tabs.getTabs().get(1).getText()).isEqualTo("sample[1] on J1.2: open");
        robot.push(KeyCode.SHORTCUT, KeyCode.PAGE_UP);
        assertThat(text(robot, "#answer-word")).endsWith("Blocked");
        assertThat(robot.lookup("#unblock-options").query().isVisible()).isTrue();
        robot.interact(() -> tabs.getSelectionModel().select(1));
        assertThat(text(robot, "#answer-word")).endsWith("Open");
        robot.push(KeyCode.SHORTCUT, KeyCode.W);
        assertThat(tabs.isVisible()).isFalse();
        assertThat(text(robot, "#answer-word")).endsWith("Blocked");
        robot.interact(() -> robot.lookup("#map").query().requestFocus());
        robot.push(KeyCode.SHORTCUT, KeyCode.Z);
        assertThat(tabs.getTabs()).hasSize(2);
    }

    @Test
    void anythingIsDoneByWords(FxRobot robot) throws Exception {
        settle();
        robot.push(KeyCode.SHORTCUT, KeyCode.E);
        assertThat(robot.lookup("#command-search").query().isVisible()).isTrue();
        robot.write("dark theme", 0);
        ListView<Action> list = robot.lookup("#command-list").queryListView();
        assertThat(list.getItems().get(0).id()).isEqualTo("dark");
        robot.push(KeyCode.ENTER);
        assertThat(model.look().darkProperty().get()).isTrue();
        assertThat(robot.lookup("#command-search").query().isVisible()).isFalse();
        robot.push(KeyCode.SHORTCUT, KeyCode.D);
        assertThat(model.look().darkProperty().get()).isFalse();
        robot.push(KeyCode.SHORTCUT, KeyCode.E);
        robot.write("zzz", 0);
        robot.push(KeyCode.ENTER);
        robot.push(KeyCode.ESCAPE);
        assertThat(robot.lookup("#command-search").query().isVisible()).isFalse();
    }

    @Test
    void aLongSearchTellsHowFarItIsAndIsStopped(FxRobot robot) throws Exception {
        settle();
        hold = true;
        robot.interact(
                () -> {
                    model.shown().netTextProperty().set(NET);
                    model.shown().padTextProperty().set("J1.3");
                    model.shown().ask();
                });
        WaitForAsyncUtils.waitFor(
                5, TimeUnit.SECONDS, () -> robot.lookup("#work-bar").query().isVisible());
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(robot.lookup("#work-share").queryAs(ProgressBar.class).getProgress())
                .isEqualTo(0.4);
        Label doing = robot.lookup("#work-doing").queryAs(Label.class);
        assertThat(doing.getText()).isEqualTo("Asking: held up");
        assertThat(doing.getWidth()).as("in full").isGreaterThanOrEqualTo(doing.prefWidth(-1) - 1);
        robot.interact(() -> robot.lookup("#map").query().requestFocus());
        robot.push(KeyCode.ESCAPE);
        settle();
        assertThat(robot.lookup("#work-bar").query().isVisible()).isFalse();
        assertThat(model.shown().answerProperty().get()).isEmpty();
        hold = false;
        ask(robot, NET, "J1.3");
        assertThat(text(robot, "#answer-word")).endsWith("Blocked");
    }

    /** The pads are asked once more in the background; what was selected stays selected. */
    @Test
    void rowsOfAComparisonStaySelectedWhenTheAnswersArrive(FxRobot robot) throws Exception {
        settle();
        ask(robot, NET, "J1.3");
        TableView<?> pads = robot.lookup("#routes-table").queryAs(TableView.class);
        WaitForAsyncUtils.waitFor(20, TimeUnit.SECONDS, () -> pads.getItems().size() > 2);
        hold = true;
        robot.interact(() -> pads.getSelectionModel().selectIndices(0, 1));
        robot.clickOn("#routes-compare");
        TableView<?> compared = robot.lookup("#comparison-table").queryAs(TableView.class);
        Object early = compared.getItems().get(0);
        robot.interact(() -> compared.getSelectionModel().selectIndices(0, 2));
        hold = false;
        WaitForAsyncUtils.waitFor(20, TimeUnit.SECONDS, () -> compared.getItems().get(0) != early);
        settle();
        assertThat(compared.getSelectionModel().getSelectedIndices()).containsExactly(0, 2);
    }

    @Test
    void badFilesAreNotesThatCanBeCopiedAndPutAway(FxRobot robot, @TempDir Path folder)
            throws Exception {
        settle();
        Path bad = folder.resolve("bad.json");
        Files.writeString(bad, "{\"format\": \"padward-design/1\", \"name\": 7}");
        robot.interact(() -> model.openAny(bad));
        settle();
        assertThat(text(robot, "#note")).contains("bad.json");
        robot.clickOn("Copy");
        String[] copied = new String[1];
        robot.interact(() -> copied[0] = Clipboard.getSystemClipboard().getString());
        assertThat(copied[0]).contains("expected: ").contains("found: ");
        robot.clickOn("Dismiss");
        assertThat(robot.lookup("#notes").query().isVisible()).isFalse();
        robot.interact(() -> model.openAny(Path.of("fixtures/small/board.json")));
        settle();
        assertThat(text(robot, "#note"))
                .isEqualTo("board.json is a board. Open the design that refers to it.");
        robot.clickOn("Dismiss");
        robot.interact(() -> model.openAny(Path.of("fixtures/lessons/01-boxes.json")));
        settle();
        assertThat(text(robot, "#note"))
                .isEqualTo(
                        "01-boxes.json is a lesson. Open its folder with Own lessons… under"
                                + " Lessons.");
        assertThat(model.openedProperty().get()).isPresent();
    }

    @Test
    void helpIsOneWindowHoweverOftenItIsAskedFor(FxRobot robot) {
        for (int i = 0; i < 2; i++) {
            robot.push(KeyCode.F1);
            WaitForAsyncUtils.waitForFxEvents();
            assertThat(helpWindows()).hasSize(1);
            robot.interact(() -> window.requestFocus());
        }
        robot.interact(() -> helpWindows().forEach(Window::hide));
        assertThat(helpWindows()).isEmpty();
    }

    private static List<Window> helpWindows() {
        return Window.getWindows().stream()
                .filter(w -> w.getScene().getRoot().getId() != null)
                .filter(w -> w.getScene().getRoot().getId().equals("help"))
                .toList();
    }

    @Test
    void textGrowsAndShrinks(FxRobot robot) throws Exception {
        settle();
        Label sentence = robot.lookup("#answer-headline").queryAs(Label.class);
        double before = sentence.getFont().getSize();
        robot.push(KeyCode.SHORTCUT, KeyCode.PLUS);
        robot.push(KeyCode.SHORTCUT, KeyCode.PLUS);
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(sentence.getFont().getSize()).isGreaterThan(before);
        robot.push(KeyCode.SHORTCUT, KeyCode.DIGIT0);
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(sentence.getFont().getSize()).isEqualTo(before);
    }
}
