package padward.ui;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import javafx.scene.control.Label;
import javafx.scene.control.TabPane;
import javafx.stage.Stage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import padward.ui.model.StartupLoader;
import padward.ui.model.WindowModel;

/** The start as the program does it, from the first picture to the window as it was left. */
@ExtendWith(ApplicationExtension.class)
class StartTest {
    private static final String NET = "pump/level/sample[1]";

    private final Path settings = Path.of("target", "test-settings", "start-" + System.nanoTime());
    private Stage stage;

    @Start
    void start(Stage given) {
        stage = given;
        stage.setWidth(1280);
        stage.setHeight(800);
    }

    private WindowModel begin(FxRobot robot, Optional<Path> asked) throws Exception {
        StartupLoader prelude = StartupLoader.begin(settings, asked);
        robot.interact(() -> PadwardApp.show(stage, prelude));
        WaitForAsyncUtils.waitFor(
                30, TimeUnit.SECONDS, () -> stage.getScene().getRoot() instanceof MainView);
        WindowModel model = ((MainView) stage.getScene().getRoot()).model();
        WaitForAsyncUtils.waitFor(30, TimeUnit.SECONDS, () -> model.jobs().running().isEmpty());
        WaitForAsyncUtils.waitForFxEvents();
        return model;
    }

    @Test
    void theDemoTheFirstTimeAndWhatWasOpenLater(FxRobot robot) throws Exception {
        WindowModel model = begin(robot, Optional.empty());
        assertThat(model.openedProperty().get().orElseThrow().design().name())
                .isEqualTo("bilge-pump");
        assertThat(robot.lookup("#design-name").queryAs(Label.class).getText())
                .contains("bilge-pump");
        assertThat(robot.lookup("#net-field").query().isFocused()).isTrue();
        Path file = Path.of("fixtures/small/around.design.json");
        robot.interact(() -> model.open(file));
        WaitForAsyncUtils.waitFor(
                30, TimeUnit.SECONDS, () -> model.design().fileProperty().get().isPresent());
        robot.interact(
                () -> {
                    model.shown().netTextProperty().set(NET);
                    model.shown().padTextProperty().set("J1.3");
                    model.shown().ask();
                    model.look().darkProperty().set(true);
                    model.look().setTextSize(16);
                });
        WaitForAsyncUtils.waitFor(
                30, TimeUnit.SECONDS, () -> model.shown().answerProperty().get().isPresent());
        robot.interact(
                () -> {
                    model.questions().open("float_hi");
                    stage.hide();
                });
        assertThat(Files.readString(settings.resolve("session.json"))).contains("around.design");

        WindowModel next = begin(robot, Optional.empty());
        WaitForAsyncUtils.waitFor(30, TimeUnit.SECONDS, () -> next.questions().all().size() == 2);
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(next.design().fileProperty().get()).contains(file.toAbsolutePath());
        assertThat(robot.lookup("#question-tabs").queryAs(TabPane.class).getTabs()).hasSize(2);
        assertThat(next.shown().netTextProperty().get()).isEqualTo("float_hi");
        assertThat(stage.getScene().getRoot().getStyleClass()).contains("dark");
        assertThat(robot.lookup("#answer-headline").queryAs(Label.class).getFont().getSize())
                .isEqualTo(16);
        robot.interact(() -> next.questions().step(1));
        WaitForAsyncUtils.waitFor(
                30, TimeUnit.SECONDS, () -> next.shown().answerProperty().get().isPresent());
        robot.interact(
                () -> {
                    next.look().darkProperty().set(false);
                    stage.hide();
                    stage.setOnHidden(e -> {});
                });
    }

    @Test
    void listsThatWereHiddenStayHiddenUntilTheyAreWanted(FxRobot robot) throws Exception {
        Files.createDirectories(settings);
        Files.writeString(settings.resolve("session.json"), "{\"lists\": false}");
        WindowModel model = begin(robot, Optional.empty());
        MapAndLists middle = robot.lookup(n -> n instanceof MapAndLists).queryAs(MapAndLists.class);
        assertThat(middle.getItems()).hasSize(1);
        robot.interact(() -> model.look().listsProperty().set(true));
        assertThat(middle.getItems()).hasSize(2);
        assertThat(middle.getDividers()).hasSize(1);
        robot.interact(
                () -> {
                    model.look().listsProperty().set(false);
                    stage.hide();
                    stage.setOnHidden(e -> {});
                });
        assertThat(middle.getItems()).hasSize(1);
    }

    @Test
    void theDividerStaysWhereTheUserPutsIt(FxRobot robot) throws Exception {
        Files.createDirectories(settings);
        Files.writeString(settings.resolve("session.json"), "{\"mapShare\": 0.6}");
        WindowModel model = begin(robot, Optional.empty());
        MapAndLists middle = robot.lookup(n -> n instanceof MapAndLists).queryAs(MapAndLists.class);
        assertThat(middle.getDividerPositions()[0]).isCloseTo(0.6, within(0.01));
        robot.drag(middle.lookup(".split-pane-divider")).moveBy(-80, 0).drop();
        WaitForAsyncUtils.waitForFxEvents();
        double put = middle.getDividerPositions()[0];
        assertThat(put).isLessThan(0.58);
        robot.interact(() -> model.look().setTextSize(16));
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(middle.getDividerPositions()[0]).isCloseTo(put, within(0.01));
        robot.interact(
                () -> {
                    model.look().setTextSize(14);
                    stage.hide();
                    stage.setOnHidden(e -> {});
                });
    }

    @Test
    void aFileAtFaultIsTold(FxRobot robot) throws Exception {
        begin(robot, Optional.of(Path.of("fixtures/small/no-such-file.json")));
        assertThat(robot.lookup("#note").queryAs(Label.class).getText())
                .contains("no-such-file.json");
        robot.interact(
                () -> {
                    stage.hide();
                    stage.setOnHidden(e -> {});
                });
    }
}
