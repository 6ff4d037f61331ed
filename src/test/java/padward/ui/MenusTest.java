package padward.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import javafx.event.Event;
import javafx.geometry.Point2D;
import javafx.scene.Node;
import javafx.scene.control.ContextMenu;
import javafx.scene.control.MenuItem;
import javafx.scene.control.TabPane;
import javafx.scene.input.Clipboard;
import javafx.scene.input.ContextMenuEvent;
import javafx.stage.Stage;
import javafx.stage.Window;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import padward.design.Design;
import padward.ui.design.OpenDesign;
import padward.ui.design.TileLayout;
import padward.ui.map.MapView;
import padward.ui.model.WindowModel;

/** The menus of map, strip map and tabs do what the rest of the window does. */
@ExtendWith(ApplicationExtension.class)
class MenusTest {
    private static final String NET = "pump/level/sample[1]";

    private Stage stage;
    private WindowModel model;

    @Start
    void start(Stage given) {
        stage = given;
        stage.setWidth(1280);
        stage.setHeight(800);
        model = OpenWindow.show(stage);
        model.open(Path.of("fixtures/small/only.design.json"));
    }

    /** The menu that a request opens at a place of a node, or with a key. */
    private ContextMenu menu(FxRobot robot, Node node, double x, double y, boolean byKey) {
        robot.interact(
                () -> {
                    Point2D at = node.localToScreen(x, y);
                    Point2D inScene = node.localToScene(x, y);
                    Event.fireEvent(
                            node,
                            new ContextMenuEvent(
                                    ContextMenuEvent.CONTEXT_MENU_REQUESTED,
                                    inScene.getX(),
                                    inScene.getY(),
                                    at.getX(),
                                    at.getY(),
                                    byKey,
                                    null));
                });
        WaitForAsyncUtils.waitForFxEvents();
        return Window.getWindows().stream()
                .filter(w -> w instanceof ContextMenu && w.isShowing())
                .map(w -> (ContextMenu) w)
                .findFirst()
                .orElseThrow();
    }

    private static List<String> texts(ContextMenu menu) {
        return menu.getItems().stream()
                .map(MenuItem::getText)
                .filter(t -> t != null && !t.isEmpty())
                .toList();
    }

    private static void run(FxRobot robot, ContextMenu menu, String text) {
        robot.interact(
                () -> {
                    menu.getItems().stream()
                            .filter(i -> text.equals(i.getText()))
                            .findFirst()
                            .orElseThrow()
                            .fire();
                    menu.hide();
                });
    }

    private static String clipboard(FxRobot robot) {
        String[] text = new String[1];
        robot.interact(() -> text[0] = Clipboard.getSystemClipboard().getString());
        return text[0];
    }

    @Test
    void aPadOnTheMapIsUsedAndItsNetBroughtOut(FxRobot robot) {
        MapView map = robot.lookup("#map").queryAs(MapView.class);
        OpenDesign opened = model.openedProperty().get().orElseThrow();
        Design design = opened.design();
        int pad =
                design.fabric().pads().stream()
                        .filter(p -> p.name().equals("x7y3/pad[0]"))
                        .findFirst()
                        .orElseThrow()
                        .vertex();
        TileLayout.Box box = opened.layout().pillAt(pad);
        robot.interact(() -> map.goTo(box.centreX(), box.centreY(), 90));
        ContextMenu menu = menu(robot, map, map.getWidth() / 2, map.getHeight() / 2, false);
        assertThat(texts(menu))
                .contains("Pin pad x7y3/pad[0]", "Use this pad", "Show on the map", "Copy the name")
                .contains("Whole fabric", "Measure")
                .contains("Bring out this net: pump/run/motor_out");
        run(robot, menu, "Use this pad");
        assertThat(model.shown().padTextProperty().get()).isEqualTo("x7y3/pad[0]");
        run(robot, menu, "Bring out this net: pump/run/motor_out");
        assertThat(model.shown().netTextProperty().get()).isEqualTo("pump/run/motor_out");
        run(robot, menu, "Pin pad x7y3/pad[0]");
        assertThat(map.mapModel().pinnedProperty().get().orElseThrow().name())
                .isEqualTo("x7y3/pad[0]");
        // The key asks for what is in the middle.
        menu = menu(robot, map, 3, 3, true);
        run(robot, menu, "Copy the name");
        assertThat(clipboard(robot)).isEqualTo("x7y3/pad[0]");
        run(robot, menu, "Whole fabric");
        assertThat(map.viewport().scale()).isLessThan(89);
    }

    @Test
    void aRightPressNeitherMovesTheMapNorPins(FxRobot robot) {
        MapView map = robot.lookup("#map").queryAs(MapView.class);
        double before = map.viewport().centreX();
        robot.rightClickOn(map);
        assertThat(map.viewport().centreX()).isEqualTo(before);
        assertThat(map.mapModel().pinnedProperty().get()).isEmpty();
    }

    @Test
    void hopsOfTheStripMapAreCopied(FxRobot robot) {
        OpenWindow.ask(robot, model, NET, "J2.1");
        Node strip = robot.lookup("#strip-map").query();
        ContextMenu menu = menu(robot, strip, 10, 60, true);
        assertThat(texts(menu))
                .contains("Show on the map", "Copy the name", "Copy the names of all hops");
        run(robot, menu, "Copy the names of all hops");
        assertThat(clipboard(robot).lines())
                .hasSize(model.shown().route().orElseThrow().hops().size())
                .contains("x0y5/pad[0]");
        // A hop that another net uses offers that net.
        int used = model.shown().obstacles().get(0).hops().get(0);
        robot.interact(() -> model.shown().selectedHopProperty().set(Optional.of(used)));
        menu = menu(robot, strip, 10, 60, true);
        assertThat(texts(menu)).contains("Bring out this net: alarm/beep");
        robot.interact(menu::hide);
    }

    @Test
    void aTabHasTheActionsOfItsQuestion(FxRobot robot) {
        OpenWindow.ask(robot, model, NET, "J1.2");
        robot.interact(() -> model.questions().open("alarm/beep"));
        TabPane tabs = robot.lookup("#question-tabs").queryAs(TabPane.class);
        ContextMenu menu = tabs.getTabs().get(0).getContextMenu();
        robot.interact(() -> menu.show(stage));
        assertThat(texts(menu))
                .containsExactly(
                        "Copy as command",
                        "Same net, another pad",
                        "Close question",
                        "Close the others");
        assertThat(model.shown().netTextProperty().get()).isEqualTo(NET);
        run(robot, menu, "Close the others");
        assertThat(model.questions().all()).hasSize(1);
        assertThat(model.shown().netTextProperty().get()).isEqualTo(NET);
        robot.interact(model::undo);
        assertThat(model.questions().all()).as("undone").hasSize(2);
    }
}
