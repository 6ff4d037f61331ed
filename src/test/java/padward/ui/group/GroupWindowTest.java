package padward.ui.group;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javafx.collections.ListChangeListener;
import javafx.event.ActionEvent;
import javafx.event.Event;
import javafx.event.EventType;
import javafx.geometry.Point2D;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.CheckBox;
import javafx.scene.control.ContextMenu;
import javafx.scene.control.Label;
import javafx.scene.control.TabPane;
import javafx.scene.control.TextField;
import javafx.scene.control.ToggleButton;
import javafx.scene.control.Tooltip;
import javafx.scene.image.PixelFormat;
import javafx.scene.image.WritableImage;
import javafx.scene.input.Clipboard;
import javafx.scene.input.ContextMenuEvent;
import javafx.scene.input.KeyCode;
import javafx.scene.input.MouseButton;
import javafx.scene.input.MouseEvent;
import javafx.stage.Stage;
import javafx.stage.Window;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import padward.change.LedgerEntry;
import padward.ui.OpenWindow;
import padward.ui.map.MapModel;
import padward.ui.map.MapView;
import padward.ui.model.WindowModel;
import padward.ui.scene.MapLayer;
import padward.ui.scene.MapOverlay;
import padward.ui.work.JobSlot;

/**
 * Groups in the window. With {@code -Dpictures=FOLDER} it takes pictures too, of another design if
 * {@code -Dpicture.design}, {@code -Dpicture.nets} and {@code -Dpicture.pads} say so.
 */
@ExtendWith(ApplicationExtension.class)
class GroupWindowTest {
    private static final String DESIGN =
            System.getProperty("picture.design", "fixtures/small/only.design.json");
    private static final String NETS =
            System.getProperty("picture.nets", "pump/level/sample[*], alarm/blink[*]");
    private static final String PADS = System.getProperty("picture.pads", "any");

    private WindowModel model;
    private Stage stage;

    @Start
    void start(Stage given) {
        stage = given;
        model = OpenWindow.show(stage);
        stage.setWidth(1280);
        stage.setHeight(800);
        model.open(Path.of(DESIGN));
    }

    private static Optional<MapOverlay> overlay(FxRobot robot) {
        return robot.lookup("#map").queryAs(MapView.class).scene().orElseThrow().overlay();
    }

    @Test
    void aGroupIsLaidPinnedMatchedAndKept(FxRobot robot) throws Exception {
        selectTab(robot, "group-tab");
        take(robot, "group-empty");
        robot.interact(
                () -> {
                    robot.lookup("#group-nets").queryAs(TextField.class).setText(NETS);
                    robot.lookup("#group-pads").queryAs(TextField.class).setText(PADS);
                    robot.lookup("#group-route").queryAs(Button.class).fire();
                });
        take(robot, "group-routed");
        String routed = robot.lookup("#group-totals").queryAs(Label.class).getText();
        assertThat(routed).contains(" of ").contains("served");
        selectTab(robot, "nets-tab");
        MapModel map = robot.lookup("#map").queryAs(MapView.class).mapModel();
        assertThat(overlay(robot)).as("with the routes of all questions").isPresent();
        robot.interact(() -> map.options().toggle(MapLayer.QUESTIONS));
        assertThat(overlay(robot)).isEmpty();
        robot.interact(() -> map.options().toggle(MapLayer.QUESTIONS));
        selectTab(robot, "group-tab");
        Node matrix = robot.lookup("#group-matrix").query();
        robot.interact(matrix::requestFocus);
        robot.press(KeyCode.RIGHT).release(KeyCode.RIGHT);
        robot.press(KeyCode.ENTER).release(KeyCode.ENTER);
        WaitForAsyncUtils.waitForFxEvents();
        robot.push(KeyCode.SHORTCUT, KeyCode.C);
        String[] copied = new String[1];
        robot.interact(() -> copied[0] = Clipboard.getSystemClipboard().getString());
        List<String> lines = copied[0].lines().toList();
        if (DESIGN.startsWith("fixtures/small")) {
            assertThat(lines.get(0)).startsWith("net,").contains("J2.1");
            assertThat(lines).hasSize(4);
            assertThat(lines.get(1)).startsWith("pump/level/sample[0],").contains("Open ");
            assertThat(routed).startsWith("3 nets, ");
        }
        assertThat(robot.lookup("#group-message").queryAs(Label.class).getText()).isNotBlank();
        robot.interact(() -> robot.lookup("#group-match").queryAs(Button.class).fire());
        take(robot, "group-matched");
        assertThat(robot.lookup("#group-totals").queryAs(Label.class).getText())
                .contains("ns before matching");
        robot.interact(
                () -> robot.lookup("#dark-button").queryAs(ToggleButton.class).setSelected(true));
        take(robot, "group-dark");
        robot.interact(
                () -> robot.lookup("#dark-button").queryAs(ToggleButton.class).setSelected(false));
        robot.interact(
                () -> {
                    TextField lead = (TextField) robot.lookup("#group-lead .text-field").query();
                    lead.setText("0.3");
                    lead.fireEvent(new ActionEvent());
                });
        int before = model.keptProperty().get().orElseThrow().entries().size();
        robot.interact(() -> robot.lookup("#group-keep").queryAs(Button.class).fire());
        assertThat(model.keptProperty().get().orElseThrow().entries()).hasSize(before + 1);
        assertThat(model.keptProperty().get().orElseThrow().entries().get(before).leads())
                .isNotEmpty()
                .allSatisfy(l -> assertThat(l.metres()).contains(0.3));
        robot.interact(model::undo);
        assertThat(model.keptProperty().get().orElseThrow().entries()).hasSize(before);
    }

    /** What follows on the board is in the open, and nothing is kept before the tick. */
    @Test
    void whatFollowsIsKeptOnlyWithATick(FxRobot robot) {
        selectTab(robot, "group-tab");
        robot.interact(
                () ->
                        robot.lookup("#group-may-disconnect")
                                .queryAs(CheckBox.class)
                                .setSelected(true));
        route(robot, "pump/run/hold, alarm/blink[0]", "B3, J1.1");
        Button keep = robot.lookup("#group-keep").queryAs(Button.class);
        CheckBox accept = robot.lookup("#group-accept").queryAs(CheckBox.class);
        List<String> cautions = new ArrayList<>();
        robot.lookup("#group-cautions .label")
                .queryAllAs(Label.class)
                .forEach(l -> cautions.add(l.getText()));
        assertThat(cautions)
                .anyMatch(t -> t.contains("Port buzzer loses this pad."))
                .anyMatch(t -> t.contains("Q3 pin gate is an input on this pad"))
                .anyMatch(t -> t.contains("licensed practice stand above"));
        assertThat(accept.isVisible()).isTrue();
        assertThat(accept.getText()).contains("I accept that Q3 pin gate will follow");
        assertThat(keep.isDisabled()).isTrue();
        robot.interact(() -> accept.setSelected(true));
        assertThat(keep.isDisabled()).isFalse();
        robot.interact(keep::fire);
        assertThat(model.keptProperty().get().orElseThrow().entries())
                .last()
                .satisfies(
                        e ->
                                assertThat(e.accepted())
                                        .extracting(LedgerEntry.Acceptance::what)
                                        .containsExactly("follows"));
    }

    /** Only what has the words is shown, and keys and pins mean what is shown. */
    @Test
    void netsAndPadsAreFiltered(FxRobot robot) {
        assumeTrue(DESIGN.startsWith("fixtures/small"));
        selectTab(robot, "group-tab");
        route(robot, NETS, PADS);
        Node matrix = robot.lookup("#group-matrix").query();
        double all = matrix.getLayoutBounds().getWidth();
        TextField filter = robot.lookup("#group-filter").queryAs(TextField.class);
        Label message = robot.lookup("#group-message").queryAs(Label.class);
        robot.interact(() -> filter.setText("J1 sample[1]"));
        assertThat(message.getText()).startsWith("Listed: 1 of 3 nets, 4 of 47 pads. ");
        assertThat(matrix.getLayoutBounds().getWidth()).isLessThan(all);
        robot.interact(matrix::requestFocus);
        robot.push(KeyCode.RIGHT).push(KeyCode.LEFT);
        assertThat(message.getText()).contains("pump/level/sample[1]").contains("pin E1");
        robot.interact(() -> filter.setText("nowhere"));
        assertThat(message.getText()).startsWith("Listed: 0 of 3 nets, 0 of 47 pads. ");
        robot.push(KeyCode.RIGHT).push(KeyCode.ENTER);
        robot.interact(() -> filter.setText(""));
        assertThat(message.getText()).doesNotContain("Listed");
        assertThat(matrix.getLayoutBounds().getWidth()).isEqualTo(all);
    }

    /**
     * Matrix and chart are as legible as the text around them, and are pointed at where they are.
     */
    @Test
    void matrixAndChartGrowWithTheText(FxRobot robot) {
        assumeTrue(DESIGN.startsWith("fixtures/small"));
        selectTab(robot, "group-tab");
        route(robot, NETS, PADS);
        Node matrix = robot.lookup("#group-matrix").query();
        Node chart = robot.lookup("#group-skew").query();
        double wide = matrix.getLayoutBounds().getWidth();
        double high = chart.getLayoutBounds().getHeight();
        robot.interact(() -> model.look().setTextSize(21));
        assertThat(matrix.getLayoutBounds().getWidth()).isCloseTo(1.5 * wide, within(0.01));
        assertThat(chart.getLayoutBounds().getHeight()).isCloseTo(1.5 * high, within(0.01));
        // The second net and the second pad.
        double cell = 1.5 * 20;
        robot.interact(
                () ->
                        fire(
                                matrix,
                                MouseEvent.MOUSE_PRESSED,
                                1.5 * 150 + 1.5 * cell,
                                1.5 * 64 + 1.5 * cell));
        assertThat(robot.lookup("#group-message").queryAs(Label.class).getText())
                .contains("pump/level/sample[1]")
                .contains("pin A2");
    }

    /** What is wrong in a field is said, and the group that was routed before is still there. */
    @Test
    void aFaultInAFieldLeavesTheGroup(FxRobot robot) {
        assumeTrue(DESIGN.startsWith("fixtures/small"));
        selectTab(robot, "group-tab");
        route(robot, NETS, PADS);
        String routed = robot.lookup("#group-totals").queryAs(Label.class).getText();
        assertThat(routed).startsWith("3 nets, ");
        for (String wrong : List.of("no/such/net", "")) {
            route(robot, wrong, PADS);
            assertThat(model.notes().all()).hasSize(1);
            assertThat(robot.lookup("#group-totals").queryAs(Label.class).getText())
                    .isEqualTo(routed);
            assertThat(robot.lookup("#group-matrix").query().getBoundsInLocal().getWidth())
                    .isGreaterThan(100);
            assertThat(robot.lookup("#group-message").queryAs(Label.class).getText())
                    .startsWith("This is the group as it was routed.");
        }
        route(robot, NETS, "no such pad");
        assertThat(robot.lookup("#group-totals").queryAs(Label.class).getText()).isEqualTo(routed);
        route(robot, "alarm/blink[*]", PADS);
        assertThat(model.notes().all()).isEmpty();
        assertThat(robot.lookup("#group-totals").queryAs(Label.class).getText())
                .isNotEqualTo(routed)
                .contains(" served");
    }

    /** What is under the pointer is told each time; a pair is offered only where there is one. */
    @Test
    void theMatrixTellsOfThePairUnderThePointer(FxRobot robot) {
        assumeTrue(DESIGN.startsWith("fixtures/small"));
        selectTab(robot, "group-tab");
        route(robot, NETS, PADS);
        Node matrix = robot.lookup("#group-matrix").query();
        for (int time = 0; time < 2; time++) {
            robot.interact(() -> fire(matrix, MouseEvent.MOUSE_MOVED, 160, 75));
            assertThat(tips(matrix)).containsExactly(true);
            robot.interact(() -> fire(matrix, MouseEvent.MOUSE_MOVED, 5, 5));
            assertThat(tips(matrix)).isEmpty();
            robot.interact(() -> fire(matrix, MouseEvent.MOUSE_MOVED, 160, 75));
            assertThat(tips(matrix)).containsExactly(true);
            robot.interact(() -> fire(matrix, MouseEvent.MOUSE_EXITED, -5, -5));
            assertThat(tips(matrix)).isEmpty();
        }
        assertThat(menu(robot, matrix, 160, 75))
                .containsExactly("Pin this pair", "Copy the answer", "Copy all with heads");
        assertThat(menu(robot, matrix, 160, 5)).containsExactly("Copy all with heads");
        assertThat(menu(robot, matrix, 5, 75)).containsExactly("Copy all with heads");
    }

    private static void fire(Node node, EventType<MouseEvent> type, double x, double y) {
        Point2D at = node.localToScene(x, y);
        Event.fireEvent(
                node,
                new MouseEvent(
                        type,
                        at.getX(),
                        at.getY(),
                        at.getX(),
                        at.getY(),
                        MouseButton.NONE,
                        0,
                        false,
                        false,
                        false,
                        false,
                        false,
                        false,
                        false,
                        false,
                        false,
                        true,
                        null));
    }

    private static List<Boolean> tips(Node node) {
        return node.getProperties().values().stream()
                .filter(Tooltip.class::isInstance)
                .map(t -> !((Tooltip) t).getText().isEmpty())
                .toList();
    }

    private static List<String> menu(FxRobot robot, Node matrix, double x, double y) {
        robot.interact(
                () -> {
                    Point2D place = matrix.localToScene(x, y);
                    Point2D at = matrix.localToScreen(x, y);
                    Event.fireEvent(
                            matrix,
                            new ContextMenuEvent(
                                    ContextMenuEvent.CONTEXT_MENU_REQUESTED,
                                    place.getX(),
                                    place.getY(),
                                    at.getX(),
                                    at.getY(),
                                    false,
                                    null));
                });
        List<String> texts = new ArrayList<>();
        robot.interact(
                () ->
                        List.copyOf(Window.getWindows()).stream()
                                .filter(ContextMenu.class::isInstance)
                                .map(ContextMenu.class::cast)
                                .forEach(
                                        m -> {
                                            m.getItems().forEach(i -> texts.add(i.getText()));
                                            m.hide();
                                        }));
        return texts;
    }

    private static void route(FxRobot robot, String nets, String pads) {
        robot.interact(
                () -> {
                    robot.lookup("#group-nets").queryAs(TextField.class).setText(nets);
                    robot.lookup("#group-pads").queryAs(TextField.class).setText(pads);
                    robot.lookup("#group-route").queryAs(Button.class).fire();
                });
        WaitForAsyncUtils.waitForFxEvents();
    }

    /** A group that is stopped shows what it has, and the pairs that were not asked about. */
    @Test
    void aStoppedGroupShowsWhatItHasSoFar(FxRobot robot) throws Exception {
        assumeTrue(DESIGN.startsWith("fixtures/small"));
        selectTab(robot, "group-tab");
        robot.interact(
                () ->
                        model.jobs()
                                .running()
                                .addListener(
                                        (ListChangeListener<JobSlot>)
                                                c -> c.getList().forEach(this::stopAtFirstReport)));
        route(robot, NETS, PADS);
        assertThat(model.jobs().running()).isEmpty();
        String[] lines = robot.lookup("#group-totals").queryAs(Label.class).getText().split("\n");
        assertThat(lines[0])
                .matches(
                        "3 nets, \\d+ pads: [0-2] of 3 nets so far; at most 3 can be brought out together");
        assertThat(lines).anyMatch(l -> l.contains("the search was stopped before it was known"));
        Node matrix = robot.lookup("#group-matrix").query();
        robot.interact(matrix::requestFocus);
        robot.push(KeyCode.SHORTCUT, KeyCode.C);
        String[] copied = new String[1];
        robot.interact(() -> copied[0] = Clipboard.getSystemClipboard().getString());
        assertThat(copied[0]).contains("not asked about, as the search was stopped");
        robot.push(KeyCode.RIGHT);
        assertThat(robot.lookup("#group-message").queryAs(Label.class).getText())
                .endsWith("not asked about, as the search was stopped.");
        take(robot, "group-stopped");
    }

    private void stopAtFirstReport(JobSlot job) {
        job.messageProperty()
                .addListener(
                        (p, old, now) -> {
                            if (now.startsWith("Routing the group: ")) {
                                model.cancel();
                            }
                        });
    }

    /** What every free route passes is marked on the map while the group is looked at. */
    @Test
    void aBottleneckIsShownOnTheMap(FxRobot robot) throws Exception {
        assumeTrue(DESIGN.startsWith("fixtures/small"));
        selectTab(robot, "group-tab");
        robot.interact(
                () -> {
                    robot.lookup("#group-nets")
                            .queryAs(TextField.class)
                            .setText("pump/level/*, alarm/*");
                    robot.lookup("#group-pads").queryAs(TextField.class).setText("header J2");
                });
        byte[] before = mapPixels(robot);
        robot.interact(() -> robot.lookup("#group-route").queryAs(Button.class).fire());
        take(robot, "group-bottleneck");
        assertThat(robot.lookup("#group-totals").queryAs(Label.class).getText())
                .startsWith(
                        "7 nets, 2 pads: 2 of 7 served; no more can be brought out together: 6 nets have to share 1 wire\n")
                .containsOnlyOnce(
                        "every free route of theirs passes x1y5/run1_w[3]; it lies in tile x1y5");
        byte[] shown = mapPixels(robot);
        assertThat(shown).isNotEqualTo(before);
        selectTab(robot, "routes-tab");
        MapModel map = robot.lookup("#map").queryAs(MapView.class).mapModel();
        assertThat(mapPixels(robot)).as("the routes alone").isNotIn(before, shown);
        robot.interact(() -> map.options().toggle(MapLayer.QUESTIONS));
        assertThat(mapPixels(robot)).isEqualTo(before);
        selectTab(robot, "group-tab");
        assertThat(mapPixels(robot)).isEqualTo(shown);
        robot.interact(
                () -> robot.lookup("#dark-button").queryAs(ToggleButton.class).setSelected(true));
        take(robot, "group-bottleneck-dark");
        robot.interact(
                () -> robot.lookup("#dark-button").queryAs(ToggleButton.class).setSelected(false));
    }

    private static void selectTab(FxRobot robot, String id) {
        robot.interact(
                () -> {
                    TabPane tabs = robot.lookup("#panels").queryAs(TabPane.class);
                    tabs.getTabs().stream()
                            .filter(t -> t.getId().equals(id))
                            .forEach(t -> tabs.getSelectionModel().select(t));
                });
        WaitForAsyncUtils.waitForFxEvents();
    }

    private static byte[] mapPixels(FxRobot robot) {
        WaitForAsyncUtils.waitForFxEvents();
        WritableImage[] picture = new WritableImage[1];
        robot.interact(() -> picture[0] = robot.lookup("#map").query().snapshot(null, null));
        int wide = (int) picture[0].getWidth();
        int high = (int) picture[0].getHeight();
        byte[] pixels = new byte[4 * wide * high];
        picture[0]
                .getPixelReader()
                .getPixels(
                        0, 0, wide, high, PixelFormat.getByteBgraInstance(), pixels, 0, 4 * wide);
        return pixels;
    }

    private void take(FxRobot robot, String name) throws Exception {
        WaitForAsyncUtils.waitForFxEvents();
        String folder = System.getProperty("pictures", "");
        if (folder.isEmpty()) {
            return;
        }
        OpenWindow.take(robot, stage, name);
    }
}
