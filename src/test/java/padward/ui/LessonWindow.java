package padward.ui;

import java.nio.file.Path;
import java.util.Optional;
import javafx.scene.control.Label;
import javafx.scene.control.TabPane;
import javafx.stage.Stage;
import org.testfx.api.FxRobot;
import org.testfx.util.WaitForAsyncUtils;
import padward.format.LearnerFile;
import padward.lesson.Deed;

/** A window for tests of lessons, whose learners are remembered in a folder of their own. */
final class LessonWindow {
    private final ExplorerModel model;
    private final Stage stage;

    private LessonWindow(ExplorerModel model, Stage stage) {
        this.model = model;
        this.stage = stage;
    }

    static LessonWindow show(Stage stage, Path learners, double width, double height) {
        System.setProperty(LearnerFile.FOLDER_PROPERTY, learners.toString());
        stage.setWidth(width);
        stage.setHeight(height);
        ExplorerModel model = PadwardApp.show(stage, Background.immediate());
        model.open(Path.of("fixtures/small/only.design.json"));
        return new LessonWindow(model, stage);
    }

    ExplorerModel model() {
        return model;
    }

    Stage stage() {
        return stage;
    }

    /** Brings a tab to the front. */
    void tab(FxRobot robot, String id) {
        robot.interact(
                () -> {
                    TabPane tabs = robot.lookup("#panels").queryAs(TabPane.class);
                    tabs.getTabs().stream()
                            .filter(t -> (id + "-tab").equals(t.getId()))
                            .forEach(t -> tabs.getSelectionModel().select(t));
                });
        WaitForAsyncUtils.waitForFxEvents();
    }

    /** Does something in the window, as its controls would. */
    void act(FxRobot robot, Deed deed) {
        if (deed instanceof Deed.Ask ask) {
            robot.interact(
                    () -> {
                        model.netTextProperty().set(ask.net());
                        model.padTextProperty().set(ask.pad());
                        model.cornerProperty().set(ask.corner());
                    });
            fire(robot, "#ask-button");
        } else if (deed instanceof Deed.ChooseHop choose) {
            robot.interact(() -> model.selectedHopProperty().set(hop(choose.vertex())));
        } else if (deed instanceof Deed.LookAtClearance look) {
            robot.interact(() -> model.optionProperty().set(look.index()));
        } else if (deed instanceof Deed.TryIt) {
            robot.interact(model::tryIt);
        } else if (deed instanceof Deed.Keep) {
            fire(robot, "#keep-button");
        } else if (deed instanceof Deed.Drop) {
            fire(robot, "#drop-button");
        } else {
            robot.interact(model::undo);
        }
        WaitForAsyncUtils.waitForFxEvents();
    }

    /** Presses a button where it may be scrolled out of sight. */
    void fire(FxRobot robot, String button) {
        robot.interact(
                () -> robot.lookup(button).queryAs(javafx.scene.control.Button.class).fire());
        WaitForAsyncUtils.waitForFxEvents();
    }

    private Optional<Integer> hop(String vertex) {
        var hops = model.way().orElseThrow().hops();
        for (int i = 0; i < hops.size(); i++) {
            if (hops.get(i).name().equals(vertex)) {
                return Optional.of(i);
            }
        }
        throw new AssertionError("no hop " + vertex);
    }

    static String text(FxRobot robot, String label) {
        return robot.lookup(label).queryAs(Label.class).getText();
    }

    static boolean has(FxRobot robot, String node) {
        return robot.lookup(node).tryQuery().isPresent();
    }
}
