package padward.ui;

import java.awt.image.BufferedImage;
import java.io.File;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import javafx.embed.swing.SwingFXUtils;
import javafx.scene.Node;
import javafx.scene.SnapshotParameters;
import javafx.scene.control.Button;
import javafx.scene.control.TextField;
import javafx.scene.control.ToggleButton;
import javafx.scene.transform.Transform;
import javafx.stage.Stage;
import javafx.stage.Window;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import padward.ui.model.WindowModel;
import padward.ui.work.BackgroundWork;

/**
 * Pictures of all panels to look at, in each size, theme and size of text: {@code -Dpanels=FOLDER}.
 * With {@code -Dpanels.sizes=1024x640,1920x1080x2}, {@code -Dpanels.themes=dark}, {@code
 * -Dpanels.texts=20} and {@code -Dpanels.only=group,watch}, some of them; the third number of a
 * size is the screen's scale.
 */
@ExtendWith(ApplicationExtension.class)
@EnabledIfSystemProperty(named = "panels", matches = ".+")
class PanelPicturesTest {
    private static final String NET = "pump/level/sample[1]";

    // A screen for the largest window; read when the toolkit starts, which is after this.
    static {
        System.setProperty("headless.geometry", "1920x1080-32");
    }

    private WindowModel model;
    private Stage stage;
    private String looks = "";
    private double scale = 1;

    @Start
    void start(Stage given) {
        stage = given;
        model = PadwardApp.show(stage, BackgroundWork.immediate());
    }

    private static String[] list(String property, String all) {
        return System.getProperty(property, all).split(",");
    }

    @Test
    void takeThem(FxRobot robot) throws Exception {
        for (String size : list("panels.sizes", "1024x640,1280x720,1920x1080,1920x1080x2")) {
            String[] parts = size.split("x");
            scale = parts.length > 2 ? Double.parseDouble(parts[2]) : 1;
            for (String theme : list("panels.themes", "light,dark")) {
                for (String text : list("panels.texts", "14,20")) {
                    looks = size + "-" + theme + "-" + text;
                    robot.interact(
                            () -> {
                                stage.setWidth(Double.parseDouble(parts[0]));
                                stage.setHeight(Double.parseDouble(parts[1]));
                                model.look().darkProperty().set(theme.equals("dark"));
                                model.look().setTextSize(Integer.parseInt(text));
                            });
                    takeAll(robot);
                }
            }
        }
    }

    private void takeAll(FxRobot robot) throws Exception {
        if (model.openedProperty().get().isEmpty()) {
            take("start");
        }
        robot.interact(() -> model.open(Path.of("fixtures/small/only.design.json")));
        run(robot, "show-routes");
        OpenWindow.ask(robot, model, NET, "J2.1");
        take("routes");
        takeFound(robot);
        robot.interact(
                () ->
                        robot.lookup("#routes-table")
                                .queryTableView()
                                .getSelectionModel()
                                .selectIndices(1, 20));
        robot.interact(() -> robot.lookup("#routes-compare").queryAs(Button.class).fire());
        take("compare");
        robot.interact(() -> robot.lookup("#comparison-back").queryAs(Button.class).fire());
        run(robot, "reasons");
        take("reasons");
        run(robot, "reasons");
        OpenWindow.ask(robot, model, NET, "J1.3");
        robot.interact(model.shown()::tryIt);
        take("what-if");
        robot.interact(model::drop);
        for (String panel : new String[] {"nets", "steps", "lessons", "exercises"}) {
            run(robot, "show-" + panel);
            take(panel);
        }
        OpenWindow.ask(robot, model, NET, "J1.2");
        robot.interact(
                () -> {
                    model.shown().tryIt();
                    model.keep();
                });
        run(robot, "show-kept");
        robot.interact(() -> robot.lookup("#check-button").queryAs(Button.class).fire());
        take("ledger");
        takeWindow(robot, "sheet", "sheet");
        takeWindow(robot, "preferences", "preferences");
        for (String tool : new String[] {"deskew", "import", "place-route"}) {
            takeWindow(robot, tool, tool);
        }
        robot.interact(model::undo);
        takeWindow(robot, "help", "help");
        robot.interact(
                () -> {
                    model.questions().open("pump/level/sample[0]");
                    model.shown().padTextProperty().set("J1.2");
                    model.shown().ask();
                    model.questions().open("alarm/beep");
                    model.shown().padTextProperty().set("E2");
                    model.shown().ask();
                });
        run(robot, "layer-legend");
        run(robot, "layer-rulers");
        run(robot, "whole-fabric");
        run(robot, "measure");
        for (int i = 0; i < 2; i++) {
            run(robot, "east");
        }
        take("questions");
        run(robot, "measure");
        run(robot, "layer-legend");
        run(robot, "layer-rulers");
        run(robot, "whole-fabric");
        while (model.questions().all().size() > 1) {
            robot.interact(() -> model.questions().close(model.shown().question()));
        }
        run(robot, "show-group");
        robot.interact(
                () -> {
                    robot.lookup("#group-nets")
                            .queryAs(TextField.class)
                            .setText("pump/level/sample[*], alarm/blink[*]");
                    robot.lookup("#group-route").queryAs(Button.class).fire();
                });
        take("group");
        robot.interact(
                () -> {
                    robot.lookup("#group-calibrate").queryAs(ToggleButton.class).setSelected(true);
                    robot.lookup("#calibration-net")
                            .queryAs(TextField.class)
                            .setText("pump/run/hold");
                    robot.lookup("#calibration-route").queryAs(Button.class).fire();
                });
        take("calibrate");
        robot.interact(
                () ->
                        robot.lookup("#group-calibrate")
                                .queryAs(ToggleButton.class)
                                .setSelected(false));
        run(robot, "show-watch");
        take("watch");
        run(robot, "show-routes");
        takeFar(robot);
        run(robot, "first-lesson");
        take("lesson");
        run(robot, "show-routes");
    }

    /** The choices of a typed name, as they lie on the window. */
    private void takeFound(FxRobot robot) throws Exception {
        Set<Window> before = Window.getWindows().stream().collect(Collectors.toSet());
        run(robot, "find");
        robot.write("x1y", 0);
        WaitForAsyncUtils.waitForFxEvents();
        for (Window one : List.copyOf(Window.getWindows())) {
            if (!before.contains(one)) {
                take(one.getScene().getRoot(), "find");
            }
        }
        robot.interact(() -> robot.lookup("#find-field").queryAs(TextField.class).clear());
    }

    /** A larger design, as a whole and a little nearer. */
    private void takeFar(FxRobot robot) throws Exception {
        robot.interact(
                () ->
                        model.open(
                                Path.of(
                                        System.getProperty(
                                                "panels.design",
                                                "fixtures/workbench/design.json.gz"))));
        run(robot, "layer-legend");
        run(robot, "whole-fabric");
        take("far");
        for (int i = 0; i < 4; i++) {
            run(robot, "zoom-in");
        }
        take("farther-in");
        run(robot, "layer-legend");
    }

    private void run(FxRobot robot, String action) {
        robot.interact(() -> OpenWindow.actions(stage).get(action).run());
    }

    private void takeWindow(FxRobot robot, String action, String name) throws Exception {
        Set<Window> before = Window.getWindows().stream().collect(Collectors.toSet());
        run(robot, action);
        WaitForAsyncUtils.waitForFxEvents();
        Optional<Window> opened =
                Window.getWindows().stream().filter(w -> !before.contains(w)).findFirst();
        if (opened.isPresent()) {
            take(opened.get().getScene().getRoot(), name);
            robot.interact(opened.get()::hide);
        }
    }

    private void take(String name) throws Exception {
        take(stage.getScene().getRoot(), name);
    }

    private void take(Node root, String name) throws Exception {
        String only = System.getProperty("panels.only", "");
        if (!only.isEmpty() && !Arrays.asList(only.split(",")).contains(name)) {
            return;
        }
        for (int pulse = 0; pulse < 4; pulse++) {
            WaitForAsyncUtils.waitForFxEvents();
            Thread.sleep(50);
        }
        SnapshotParameters finer = new SnapshotParameters();
        finer.setTransform(Transform.scale(scale, scale));
        BufferedImage image =
                WaitForAsyncUtils.asyncFx(
                                () -> SwingFXUtils.fromFXImage(root.snapshot(finer, null), null))
                        .get();
        File folder = new File(System.getProperty("panels"));
        folder.mkdirs();
        ImageIO.write(image, "png", new File(folder, name + "-" + looks + ".png"));
    }
}
