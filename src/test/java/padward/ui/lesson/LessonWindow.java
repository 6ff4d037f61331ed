package padward.ui.lesson;

import java.nio.file.Path;
import java.util.Optional;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.CheckBox;
import javafx.scene.control.ChoiceBox;
import javafx.scene.control.Label;
import javafx.scene.control.RadioButton;
import javafx.scene.control.TabPane;
import javafx.scene.control.TextField;
import javafx.scene.input.KeyCode;
import javafx.stage.Stage;
import org.testfx.api.FxRobot;
import padward.fabric.delay.Corner;
import padward.lesson.UserAction;
import padward.lesson.file.LearnerFolder;
import padward.ui.OpenWindow;
import padward.ui.control.LinkedText;
import padward.ui.model.WindowModel;
import padward.watch.request.CircuitSort;

/**
 * A window for tests of lessons, with its own folder for learners' progress. Actions are done with
 * the controls and keys of the window.
 */
public final class LessonWindow {
    private final WindowModel model;
    private final Stage stage;

    private LessonWindow(WindowModel model, Stage stage) {
        this.model = model;
        this.stage = stage;
    }

    public static LessonWindow show(Stage stage, Path learners, double width, double height) {
        System.setProperty(LearnerFolder.PROPERTY, learners.toString());
        stage.setWidth(width);
        stage.setHeight(height);
        WindowModel model = OpenWindow.show(stage);
        model.open(Path.of("fixtures/small/only.design.json"));
        return new LessonWindow(model, stage);
    }

    WindowModel model() {
        return model;
    }

    Stage stage() {
        return stage;
    }

    /** Brings a tab to the front. */
    public void tab(FxRobot robot, String id) {
        robot.interact(
                () -> {
                    TabPane tabs = robot.lookup("#panels").queryAs(TabPane.class);
                    tabs.getTabs().stream()
                            .filter(t -> (id + "-tab").equals(t.getId()))
                            .forEach(t -> tabs.getSelectionModel().select(t));
                });
    }

    /** Does something in the window. */
    public void act(FxRobot robot, UserAction action) {
        if (action instanceof UserAction.Ask ask) {
            ask(robot, ask);
        } else if (action instanceof UserAction.ChooseHop choose) {
            choose(robot, choose.vertex());
        } else if (action instanceof UserAction.ChooseOption choice) {
            robot.interact(
                    () ->
                            robot.lookup("#option-" + choice.index())
                                    .queryAs(RadioButton.class)
                                    .fire());
        } else if (action instanceof UserAction.TryIt) {
            onMap(robot, KeyCode.T);
        } else if (action instanceof UserAction.Keep) {
            robot.interact(() -> model().shown().acceptedProperty().set(true));
            fire(robot, "#keep-button");
        } else if (action instanceof UserAction.Watch watch) {
            watch(robot, watch);
        } else if (action instanceof UserAction.Drop) {
            fire(robot, "#drop-button");
        } else {
            onMap(robot, KeyCode.Z);
        }
    }

    /** In the panel of watch circuits; afterwards the panel that was open is open again. */
    private void watch(FxRobot robot, UserAction.Watch watch) {
        TabPane tabs = robot.lookup("#panels").queryAs(TabPane.class);
        String before = tabs.getSelectionModel().getSelectedItem().getId();
        tab(robot, "watch");
        robot.interact(
                () -> {
                    @SuppressWarnings("unchecked")
                    ChoiceBox<CircuitSort> sort =
                            robot.lookup("#watch-sort").queryAs(ChoiceBox.class);
                    sort.setValue(watch.circuit());
                    robot.lookup("#watch-when").queryAs(TextField.class).setText(watch.when());
                    robot.lookup("#watch-pad").queryAs(TextField.class).setText(watch.pad());
                    robot.lookup("#watch-registered")
                            .queryAs(CheckBox.class)
                            .setSelected(watch.registered());
                });
        fire(robot, "#watch-ask");
        fire(robot, "#watch-keep");
        tab(robot, before.replace("-tab", ""));
    }

    private static void ask(FxRobot robot, UserAction.Ask ask) {
        robot.interact(
                () -> {
                    robot.lookup("#net-field").queryAs(TextField.class).setText(ask.net());
                    robot.lookup("#pad-field").queryAs(TextField.class).setText(ask.pad());
                    @SuppressWarnings("unchecked")
                    ChoiceBox<Corner> corner = robot.lookup("#corner").queryAs(ChoiceBox.class);
                    corner.setValue(ask.corner());
                    robot.lookup("#ask-button").queryAs(Button.class).fire();
                });
    }

    private static void onMap(FxRobot robot, KeyCode key) {
        robot.interact(() -> robot.lookup("#map").query().requestFocus());
        robot.push(KeyCode.SHORTCUT, key);
    }

    /** Selects a hop, as a click on its mark does; keys would pass other hops. */
    private void choose(FxRobot robot, String vertex) {
        int wanted = hop(vertex);
        robot.interact(() -> model.shown().selectedHopProperty().set(Optional.of(wanted)));
    }

    private int hop(String vertex) {
        var hops = model.shown().route().orElseThrow().hops();
        for (int i = 0; i < hops.size(); i++) {
            if (hops.get(i).name().equals(vertex)) {
                return i;
            }
        }
        throw new AssertionError("no hop " + vertex);
    }

    /** Presses a button, which may be scrolled out of view. */
    public void fire(FxRobot robot, String button) {
        robot.interact(() -> robot.lookup(button).queryAs(Button.class).fire());
    }

    public static String text(FxRobot robot, String label) {
        Node node = robot.lookup(label).query();
        return node instanceof LinkedText linked ? linked.text() : ((Label) node).getText();
    }

    static boolean has(FxRobot robot, String node) {
        return robot.lookup(node).tryQuery().isPresent();
    }
}
