package padward.ui;

import java.nio.file.Path;
import java.util.Optional;
import javafx.scene.control.TabPane;
import javafx.scene.control.TableView;
import javafx.scene.input.KeyCode;
import javafx.stage.Stage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import padward.ui.design.OpenDesign;
import padward.ui.design.TileLayout;
import padward.ui.map.MapItemDescriber;
import padward.ui.map.MapView;
import padward.ui.model.WindowModel;
import padward.ui.scene.MapLayer;
import padward.ui.work.BackgroundWork;

/**
 * Takes the pictures for docs: {@code mvn test -Dtest=PicturesTest -Dpictures=docs/pictures}.
 * Another design and size can be given for a look: {@code -Dpicture.design=… -Dpicture.net=…
 * -Dpicture.pad=… -Dpicture.width=… -Dpicture.height=… -Dpicture.text=… -Dpicture.dark=true}.
 */
@ExtendWith(ApplicationExtension.class)
@EnabledIfSystemProperty(named = "pictures", matches = ".+")
class PicturesTest {
    /** A file; the built-in demo without one. */
    private static final Optional<String> DESIGN =
            Optional.ofNullable(System.getProperty("picture.design"));

    private static final String NET = System.getProperty("picture.net", "pump/level/sample[1]");
    private static final String PAD = System.getProperty("picture.pad", "J2.1");

    private WindowModel model;
    private Stage stage;

    @Start
    void start(Stage given) {
        stage = given;
        model = PadwardApp.show(stage, BackgroundWork.immediate());
        stage.setWidth(Integer.getInteger("picture.width", 1280));
        stage.setHeight(Integer.getInteger("picture.height", 800));
        model.look().setTextSize(Integer.getInteger("picture.text", 14));
        model.look().darkProperty().set(Boolean.getBoolean("picture.dark"));
        DESIGN.ifPresentOrElse(file -> model.open(Path.of(file)), model::openDemo);
    }

    @Test
    void takeThem(FxRobot robot) throws Exception {
        robot.interact(
                () -> {
                    // Again, because the window takes the size of its scene when it is shown.
                    stage.setWidth(Integer.getInteger("picture.width", 1280));
                    stage.setHeight(Integer.getInteger("picture.height", 800));
                });
        take(robot, "window-empty");
        ask(robot, PAD);
        take(robot, "window-blocked");
        robot.interact(() -> model.shown().selectedHopProperty().set(Optional.of(4)));
        take(robot, "window-hop");
        robot.interact(() -> model.shown().selectedHopProperty().set(Optional.empty()));
        robot.interact(model.shown()::tryIt);
        robot.interact(() -> OpenWindow.actions(stage).get("whole-route").run());
        take(robot, "window-what-if");
        if (model.shown().whatIfProperty().get().isPresent()) {
            robot.interact(model::keep);
            take(robot, "window-kept");
            robot.interact(model::undo);
        }
        ask(robot, System.getProperty("picture.removable", "J1.3"));
        take(robot, "window-removable");
        robot.interact(
                () -> {
                    TableView<?> table = robot.lookup("#routes-table").queryTableView();
                    table.getSelectionModel().select(3);
                });
        take(robot, "window-preview");
        robot.interact(
                () -> robot.lookup("#panels").queryAs(TabPane.class).getSelectionModel().select(1));
        take(robot, "window-nets");
        robot.interact(
                () -> robot.lookup("#panels").queryAs(TabPane.class).getSelectionModel().select(0));
        ask(robot, System.getProperty("picture.open", "J1.2"));
        take(robot, "window-open");
        MapView map = robot.lookup("#map").queryAs(MapView.class);
        robot.interact(
                () -> {
                    OpenDesign opened = model.openedProperty().get().orElseThrow();
                    int wire = model.shown().route().orElseThrow().hops().get(1).vertex();
                    TileLayout.Point end = opened.layout().end(wire);
                    map.goTo(end.x(), end.y(), 320);
                    map.mapModel()
                            .pinnedProperty()
                            .set(Optional.of(new MapItemDescriber(opened).vertex(wire)));
                });
        take(robot, "window-pinned");
        robot.interact(
                () -> {
                    map.mapModel().pinnedProperty().set(Optional.empty());
                    map.mapModel().options().toggle(MapLayer.DELAY);
                    map.fitAll();
                });
        take(robot, "window-delay");
        robot.interact(() -> map.mapModel().options().toggle(MapLayer.DELAY));
        ask(robot, "x0y3/pad[0]");
        take(robot, "window-cautions");
        robot.interact(() -> OpenWindow.actions(stage).get("reasons").run());
        take(robot, "window-reasons");
        robot.interact(() -> OpenWindow.actions(stage).get("reasons").run());
        robot.interact(
                () -> {
                    model.questions().open(NET);
                    model.shown().padTextProperty().set(PAD);
                    model.shown().ask();
                });
        take(robot, "window-questions");
        robot.push(KeyCode.SHORTCUT, KeyCode.E);
        robot.write("text", 0);
        take(robot, "window-commands");
        robot.push(KeyCode.ESCAPE);
        robot.interact(() -> model.questions().close(model.shown().question()));
        robot.interact(() -> model.look().darkProperty().set(true));
        ask(robot, PAD);
        take(robot, "window-dark");
        ask(robot, "J9.9");
        take(robot, "window-note");
        robot.interact(() -> model.look().darkProperty().set(false));
        ask(robot, PAD);
        robot.interact(() -> model.look().setTextSize(18));
        take(robot, "window-large-text");
    }

    private void ask(FxRobot robot, String pad) {
        OpenWindow.ask(robot, model, NET, pad);
    }

    private void take(FxRobot robot, String name) throws Exception {
        OpenWindow.take(robot, stage, name);
    }
}
