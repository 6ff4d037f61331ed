package padward.ui.map;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import javafx.css.PseudoClass;
import javafx.event.Event;
import javafx.geometry.Bounds;
import javafx.geometry.Point2D;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.ChoiceBox;
import javafx.scene.control.Label;
import javafx.scene.control.TableView;
import javafx.scene.input.KeyCode;
import javafx.scene.input.MouseButton;
import javafx.scene.input.ScrollEvent;
import javafx.scene.input.ZoomEvent;
import javafx.stage.Stage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Obstacle;
import padward.ui.OpenWindow;
import padward.ui.design.TileLayout;
import padward.ui.draw.Palette;
import padward.ui.draw.SvgSurface;
import padward.ui.draw.Viewport;
import padward.ui.model.WindowModel;
import padward.ui.paint.MarkedRoutes;
import padward.ui.scene.LegendEntry;
import padward.ui.scene.MapLayer;
import padward.ui.scene.ObstaclePlaces;

/** What users do on the map. */
@ExtendWith(ApplicationExtension.class)
class MapFlowsTest {
    private static final String NET = "pump/level/sample[1]";
    private static final PseudoClass CHOSEN = PseudoClass.getPseudoClass("chosen");

    private static final String BLOCKED_PAD = "J1.3";

    private WindowModel model;
    private MapView map;

    @Start
    void start(Stage stage) {
        stage.setWidth(1280);
        stage.setHeight(800);
        model = OpenWindow.show(stage);
        model.open(Path.of("fixtures/small/only.design.json"));
        map = (MapView) stage.getScene().lookup("#map");
    }

    private void ask(FxRobot robot, String pad) {
        OpenWindow.ask(robot, model, NET, pad);
    }

    private TileLayout layout() {
        return model.openedProperty().get().orElseThrow().layout();
    }

    private void click(FxRobot robot, double worldX, double worldY) {
        Viewport view = map.viewport();
        Point2D at = map.localToScreen(view.screenX(worldX), view.screenY(worldY));
        robot.clickOn(at);
        WaitForAsyncUtils.waitForFxEvents();
    }

    private static String text(FxRobot robot, String label) {
        return robot.lookup(label).queryAs(Label.class).getText();
    }

    @Test
    void aClickPinsACellAndItsNetGoesIntoTheQuestion(FxRobot robot) {
        robot.interact(() -> map.goTo(3.7, 3.5, 240));
        TileLayout.Box cell =
                layout().site(
                                model.openedProperty()
                                        .get()
                                        .orElseThrow()
                                        .design()
                                        .fabric()
                                        .findSite("x3y3/cell[1]"));
        click(robot, cell.centreX(), cell.centreY());
        assertThat(text(robot, "#pin-title")).endsWith("x3y3/cell[1]");
        assertThat(text(robot, "#pin-state")).contains("pump/level/sample[1]");
        robot.clickOn("#pin-bring-out");
        assertThat(model.shown().netTextProperty().get()).isEqualTo(NET);
        robot.clickOn("#pin-close");
        assertThat(map.mapModel().pinnedProperty().get()).isEmpty();
    }

    @Test
    void aPinnedPadGoesIntoTheQuestion(FxRobot robot) {
        int pad =
                model.openedProperty()
                        .get()
                        .orElseThrow()
                        .design()
                        .fabric()
                        .findVertex("x7y3/pad[0]");
        TileLayout.Box pill = layout().pillAt(pad);
        robot.interact(() -> map.goTo(6, 3.5, 60));
        click(robot, pill.centreX(), pill.centreY());
        robot.clickOn("#pin-take-pad");
        assertThat(model.shown().padTextProperty().get()).isEqualTo("x7y3/pad[0]");
    }

    @Test
    void anObstacleIsTheSameOnMapStripAndList(FxRobot robot) {
        ask(robot, "J1.3");
        Obstacle obstacle = model.shown().obstacles().get(0);
        TileLayout.Point at =
                new ObstaclePlaces(
                                model.openedProperty().get().orElseThrow(),
                                model.shown().route().orElseThrow(),
                                map.viewport().scale())
                        .of(obstacle);
        click(robot, at.x(), at.y());
        assertThat(model.shown().selectedHopProperty().get()).contains(obstacle.hops().get(0));
        Node line = robot.lookup("#obstacle-0-0").query();
        assertThat(line.getPseudoClassStates()).contains(CHOSEN);
        robot.interact(() -> model.shown().selectedHopProperty().set(Optional.of(0)));
        assertThat(line.getPseudoClassStates()).doesNotContain(CHOSEN);
        robot.interact(((Button) line)::fire);
        assertThat(model.shown().selectedHopProperty().get()).contains(obstacle.hops().get(0));
        assertThat(map.mapModel().chosenObstacleProperty().get()).contains(obstacle);
    }

    @Test
    void theMapCanBeUsedWithKeysAlone(FxRobot robot) {
        ask(robot, "J1.2");
        robot.interact(map::requestFocus);
        robot.push(KeyCode.DIGIT3);
        assertThat(map.scene().orElseThrow().shows(MapLayer.ROUTE)).isFalse();
        robot.push(KeyCode.DIGIT7);
        assertThat(map.scene().orElseThrow().bands()).isPresent();
        robot.push(KeyCode.N);
        Viewport net = map.viewport();
        robot.push(KeyCode.T);
        assertThat(map.viewport().scale()).isGreaterThan(net.scale());
        robot.push(KeyCode.ENTER);
        assertThat(map.mapModel().pinnedProperty().get()).isPresent();
        robot.push(KeyCode.U);
        assertThat(map.mapModel().pinnedProperty().get()).isEmpty();
        robot.push(KeyCode.BACK_SPACE);
        assertThat(map.viewport()).isEqualTo(net);
    }

    @Test
    void aRectangleIsZoomedToAndTheMouseGoesBack(FxRobot robot) {
        Viewport before = map.viewport();
        Point2D from = map.localToScreen(100, 60);
        robot.press(KeyCode.SHIFT).moveTo(from).press(MouseButton.PRIMARY);
        robot.moveTo(from.add(60, 40));
        robot.moveTo(from.add(100, 80)).release(MouseButton.PRIMARY).release(KeyCode.SHIFT);
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(map.viewport().scale()).isGreaterThan(before.scale() * 2);
        assertThat(map.viewport().centreX()).isCloseTo(before.worldX(150), within(0.1));
        robot.interact(map::requestFocus);
        robot.push(KeyCode.ALT, KeyCode.LEFT);
        assertThat(map.viewport().scale()).isEqualTo(before.scale());
        robot.doubleClickOn(map.localToScreen(200, 100));
        assertThat(map.viewport().scale()).isGreaterThan(before.scale() * 1.5);
    }

    private List<String> legend() {
        return map
                .scene()
                .orElseThrow()
                .overlay()
                .map(o -> o.legend(Palette.LIGHT))
                .orElse(List.of())
                .stream()
                .map(LegendEntry::meaning)
                .toList();
    }

    @Test
    void theRoutesOfOtherQuestionsAreDrawnWithMarksOfTheirOwn(FxRobot robot) {
        ask(robot, "J1.2");
        robot.interact(() -> model.questions().open("pump/level/sample[0]"));
        OpenWindow.ask(robot, model, "pump/level/sample[0]", "J1.3");
        assertThat(legend()).containsExactly("route of sample[1] on J1.2");
        robot.interact(() -> model.questions().open("alarm/beep"));
        OpenWindow.ask(robot, model, "alarm/beep", "E2");
        assertThat(legend())
                .containsExactly(
                        "route of sample[1] on J1.2", "route of sample[0] on J1.3 (blocked)");
        MarkedRoutes drawn = (MarkedRoutes) map.scene().orElseThrow().overlay().orElseThrow();
        assertThat(drawn.lines().stream().map(l -> l.mark().number())).doesNotHaveDuplicates();
        robot.interact(() -> model.questions().step(1));
        assertThat(legend())
                .as("the shown one is drawn as the route of the answer")
                .containsExactly("route of sample[0] on J1.3 (blocked)", "route of beep on E2");
        robot.interact(map::requestFocus);
        robot.push(KeyCode.Q);
        assertThat(legend()).isEmpty();
        robot.push(KeyCode.Q);
        robot.interact(() -> model.questions().close(model.questions().all().get(1)));
        assertThat(legend()).containsExactly("route of beep on E2");
    }

    /** A route that something blocks is not drawn as if it were open. */
    @Test
    void aBlockedRouteOfAnotherQuestionSaysSo(FxRobot robot) {
        ask(robot, BLOCKED_PAD);
        assertThat(model.shown().answerProperty().get()).get().isInstanceOf(Answer.Blocked.class);
        int obstacles = model.shown().obstacles().size();
        assertThat(obstacles).isPositive();
        robot.interact(() -> model.questions().open("alarm/beep"));
        OpenWindow.ask(robot, model, "alarm/beep", "E2");
        assertThat(legend()).containsExactly("route of sample[1] on " + BLOCKED_PAD + " (blocked)");
        MarkedRoutes drawn = (MarkedRoutes) map.scene().orElseThrow().overlay().orElseThrow();
        SvgSurface out = new SvgSurface(900, 700, "map");
        drawn.paint(map.scene().orElseThrow(), out);
        assertThat(out.finish().toLowerCase(Locale.ROOT).split("#d55e00", -1))
                .as("a disc for each obstacle")
                .hasSize(obstacles + 1);
        robot.interact(() -> model.questions().step(1));
        robot.interact(() -> model.shown().tryIt());
        robot.interact(() -> model.questions().step(1));
        assertThat(legend()).containsExactly("route of sample[1] on " + BLOCKED_PAD);
    }

    private void scroll(FxRobot robot, double right, double down) {
        ScrollEvent event =
                new ScrollEvent(
                        ScrollEvent.SCROLL,
                        200,
                        100,
                        0,
                        0,
                        false,
                        false,
                        false,
                        false,
                        false,
                        false,
                        right,
                        down,
                        right,
                        down,
                        ScrollEvent.HorizontalTextScrollUnits.NONE,
                        0,
                        ScrollEvent.VerticalTextScrollUnits.NONE,
                        0,
                        0,
                        null);
        robot.interact(() -> Event.fireEvent(map, event));
    }

    @Test
    void wheelTrackpadAndPinchZoomByWhatTheyMove(FxRobot robot) {
        robot.interact(map::fitAll);
        double first = map.viewport().scale();
        scroll(robot, 0, 40);
        double notch = map.viewport().scale();
        assertThat(notch).as("a notch of the wheel").isCloseTo(1.25 * first, within(1e-9));
        for (int i = 0; i < 10; i++) {
            scroll(robot, 0, -4);
        }
        assertThat(map.viewport().scale()).as("ten small moves").isCloseTo(first, within(1e-6));
        double centre = map.viewport().centreX();
        scroll(robot, 30, 0);
        assertThat(map.viewport().centreX()).isCloseTo(centre - 30 / first, within(1e-6));
        Viewport before = map.viewport();
        ZoomEvent pinch =
                new ZoomEvent(
                        ZoomEvent.ZOOM,
                        200,
                        100,
                        0,
                        0,
                        false,
                        false,
                        false,
                        false,
                        false,
                        false,
                        1.5,
                        1.5,
                        null);
        robot.interact(() -> Event.fireEvent(map, pinch));
        assertThat(map.viewport().scale()).isCloseTo(1.5 * before.scale(), within(1e-6));
    }

    private String ruler() {
        return map.mapModel()
                .measure()
                .rulerProperty()
                .get()
                .map(r -> ((MeasurePainter) r).text())
                .orElse("");
    }

    private Point2D tile(double column, double row) {
        Viewport view = map.viewport();
        return map.localToScreen(view.screenX(column + 0.5), view.screenY(row + 0.5));
    }

    @Test
    void aDragWithCtrlMeasuresTilesAndDelayUntilEscape(FxRobot robot) {
        robot.interact(map::fitAll);
        Viewport before = map.viewport();
        robot.press(KeyCode.SHORTCUT).moveTo(tile(1, 1)).press(MouseButton.PRIMARY);
        robot.moveTo(tile(3, 2)).moveTo(tile(6, 5));
        assertThat(ruler()).isEqualTo("x1y1 to x6y5: 5 columns, 4 rows");
        robot.release(MouseButton.PRIMARY).release(KeyCode.SHORTCUT);
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(ruler())
                .matches(
                        "x1y1 to x6y5: 5 columns, 4 rows; at least [0-9.]+–[0-9.]+ ns over free wires");
        assertThat(map.viewport()).as("the map stays").isEqualTo(before);
        assertThat(map.scene().orElseThrow().overlay()).isPresent();
        robot.push(KeyCode.ESCAPE);
        assertThat(ruler()).isEmpty();
        assertThat(map.scene().orElseThrow().overlay()).isEmpty();
    }

    @Test
    void theKeysMeasureFromTheMiddle(FxRobot robot) {
        robot.interact(() -> map.goTo(2.5, 2.5, 60));
        robot.interact(map::requestFocus);
        robot.push(KeyCode.M);
        assertThat(ruler()).startsWith("To measure,");
        robot.push(KeyCode.RIGHT).push(KeyCode.RIGHT).push(KeyCode.UP);
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(ruler()).startsWith("x2y2 to x4y3: 2 columns, 1 row; at least ");
        robot.interact(() -> model.open(Path.of("fixtures/small/around.design.json")));
        assertThat(ruler()).as("another design").isEmpty();
    }

    @Test
    void theMeasureButtonLetsADragMeasure(FxRobot robot) {
        robot.interact(map::fitAll);
        robot.clickOn("#measure-button");
        robot.moveTo(tile(2, 2)).press(MouseButton.PRIMARY).moveTo(tile(2, 3));
        robot.moveTo(tile(2, 4)).release(MouseButton.PRIMARY);
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(ruler()).startsWith("x2y2 to x2y4: 0 columns, 2 rows; ");
        robot.clickOn("#measure-button");
        assertThat(ruler()).isEmpty();
    }

    @Test
    void whatIsUnderThePointerIsToldNextToItAndTheCardCanBeMoved(FxRobot robot) {
        robot.interact(() -> map.goTo(3.7, 3.5, 240));
        robot.moveTo(map.localToScreen(300, 100)).moveTo(map.localToScreen(302, 102));
        Node under = robot.lookup("#under-pointer").query();
        assertThat(under.isVisible()).isTrue();
        assertThat(Math.abs(under.getLayoutY() - 102)).isLessThan(60);
        robot.interact(() -> robot.lookup("#map").query().requestFocus());
        robot.push(KeyCode.ENTER);
        Node card = robot.lookup("#pin-card").query();
        Point2D grip = card.localToScreen(20, 12);
        robot.moveTo(grip).press(MouseButton.PRIMARY).moveTo(grip.add(120, 40));
        robot.release(MouseButton.PRIMARY);
        assertThat(card.getTranslateX()).isCloseTo(120, within(3.0));
        robot.moveTo(card.localToScreen(20, 12)).press(MouseButton.PRIMARY);
        robot.moveTo(map.localToScreen(-500, -500)).release(MouseButton.PRIMARY);
        assertThat(card.getBoundsInParent().getMinX()).isGreaterThanOrEqualTo(0);
    }

    @Test
    void noButtonLiesOnTheMap() {
        assertThat(map.lookupAll(".button").stream().filter(Node::isVisible))
                .allMatch(b -> b.getParent().getParent().getId().equals("pin-card"));
    }

    @Test
    void whatIsFittedStaysFittedWhenTheMapChangesItsSize(FxRobot robot) {
        robot.interact(map::fitAll);
        double before = map.viewport().scale();
        robot.interact(() -> model.look().listsProperty().set(false));
        robot.interact(() -> map.getScene().getWindow().setHeight(560));
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(map.viewport().scale()).isLessThan(before);
        Viewport view = map.viewport();
        assertThat(view.screenY(8.5)).isGreaterThanOrEqualTo(0);
        assertThat(view.screenY(-0.5)).isLessThanOrEqualTo(view.height());
        robot.interact(() -> map.navigation().step(1, 0));
        Viewport moved = map.viewport();
        robot.interact(() -> map.getScene().getWindow().setHeight(800));
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(map.viewport().scale()).isEqualTo(moved.scale());
    }

    @Test
    void aWhatIfIsShownNextToTheStateBefore(FxRobot robot) {
        ask(robot, "J1.3");
        robot.interact(model.shown()::tryIt);
        assertThat(text(robot, "#what-if-before-route"))
                .contains("obstacles: cell pump/run/motor_out");
        assertThat(text(robot, "#what-if-after-route")).contains("no obstacles");
        assertThat(map.scene().orElseThrow().before()).isPresent();
        assertThat(map.scene().orElseThrow().obstacles()).hasSize(1);
    }

    @Test
    void aClickOutsideTheRowsEndsThePreview(FxRobot robot) {
        ask(robot, "J1.3");
        TableView<Answer> table = robot.lookup("#routes-table").queryTableView();
        robot.interact(
                () -> {
                    @SuppressWarnings("unchecked")
                    ChoiceBox<String> filter =
                            robot.lookup("#routes-filter").queryAs(ChoiceBox.class);
                    filter.setValue("used pads");
                    table.getSelectionModel().select(0);
                });
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(model.shown().previewProperty().get()).isPresent();
        double rows = table.getItems().size() * table.getFixedCellSize();
        Bounds bounds = table.localToScreen(table.getBoundsInLocal());
        double beside = bounds.getMinY() + 30 + rows + 12;
        if (beside < bounds.getMaxY() - 20) {
            robot.clickOn(new Point2D(bounds.getMinX() + 40, beside));
            assertThat(model.shown().previewProperty().get()).isEmpty();
            assertThat(table.getSelectionModel().getSelectedItem()).isNull();
        }
    }
}
