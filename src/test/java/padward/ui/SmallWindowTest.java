package padward.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import javafx.geometry.Bounds;
import javafx.geometry.Insets;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.ChoiceBox;
import javafx.scene.control.IndexedCell;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.TabPane;
import javafx.scene.control.TableColumnBase;
import javafx.scene.control.TextField;
import javafx.scene.control.TreeTableView;
import javafx.scene.layout.Region;
import javafx.scene.text.Text;
import javafx.stage.Stage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import padward.ui.model.WindowModel;
import padward.watch.request.CircuitSort;

/**
 * In the smallest windows that the guide names, with a trial open and something kept: question,
 * answer, map, strip map and lists are all there, and nothing lies on anything else.
 */
@ExtendWith(ApplicationExtension.class)
class SmallWindowTest {
    private static final List<String> PARTS =
            List.of("#question-row", "#answer-part", "#map", "#strip-map", "#side", "#kept-strip");

    private WindowModel model;
    private Stage stage;

    @Start
    void start(Stage given) {
        stage = given;
        model = OpenWindow.show(stage);
        model.open(Path.of("fixtures/small/only.design.json"));
    }

    @ParameterizedTest
    @CsvSource({"1280, 720, 14", "1280, 720, 18", "1024, 640, 14"})
    void everythingHasItsPlace(int width, int height, int text, FxRobot robot) {
        robot.interact(
                () -> {
                    stage.setWidth(width);
                    stage.setHeight(height);
                    model.look().setTextSize(text);
                    ask("x7y2/pad[1]");
                    model.shown().tryIt();
                    OpenWindow.actions(stage).get("keep").run();
                    ask("J1.3");
                    model.shown().tryIt();
                });
        for (int pulse = 0; pulse < 3; pulse++) {
            WaitForAsyncUtils.waitForFxEvents();
        }
        List<Bounds> places = PARTS.stream().map(p -> place(robot.lookup(p).query())).toList();
        for (int i = 0; i < places.size(); i++) {
            Bounds place = places.get(i);
            assertThat(place.getMinX()).as(PARTS.get(i)).isGreaterThanOrEqualTo(0);
            assertThat(place.getMaxX()).as(PARTS.get(i)).isLessThanOrEqualTo(width + 0.5);
            assertThat(place.getMaxY()).as(PARTS.get(i)).isLessThanOrEqualTo(height + 0.5);
            for (int j = 0; j < i; j++) {
                assertThat(overlap(place, places.get(j)))
                        .as(PARTS.get(i) + " on " + PARTS.get(j))
                        .isLessThan(2);
            }
        }
        assertThat(places.get(2).getHeight()).as("map").isGreaterThanOrEqualTo(120);
        assertThat(places.get(3).getHeight()).as("strip map").isGreaterThanOrEqualTo(100);
        for (String button : List.of("#ask-button", "#keep-button", "#drop-button")) {
            Node node = robot.lookup(button).query();
            assertThat(place(node).getMaxX()).as(button).isLessThanOrEqualTo(width);
            Bounds said = places.get(button.equals("#ask-button") ? 0 : 4);
            assertThat(place(node).getMaxY()).as(button).isLessThanOrEqualTo(said.getMaxY() + 0.5);
        }
        if (width >= 1280) {
            assertNothingIsCutOff(robot);
        }
    }

    /**
     * The smallest window with large text: the lists have rows, and buttons have all their text.
     */
    @Test
    void listsHaveRowsAtLargeText(FxRobot robot) {
        robot.interact(
                () -> {
                    stage.setWidth(1024);
                    stage.setHeight(640);
                    model.look().setTextSize(20);
                    ask("J2.1");
                });
        layOut();
        Bounds table = place(robot.lookup("#routes-table").query());
        assertThat(rowsIn(robot, table)).as("rows of pads").isGreaterThanOrEqualTo(3);
        // All options are one press away, and stay when they were asked for.
        assertThat(shown(robot.lookup("#option-0").query())).isFalse();
        robot.interact(() -> robot.lookup("#unblock-fold").queryAs(Button.class).fire());
        layOut();
        assertThat(shown(robot.lookup("#option-0").query())).isTrue();
        robot.interact(() -> ask("J1.3"));
        layOut();
        assertThat(shown(robot.lookup("#option-0").query())).isTrue();
        assertThat(place(robot.lookup("#map-bar").query()).getHeight())
                .as("one row")
                .isLessThan(60);
        robot.interact(() -> OpenWindow.actions(stage).get("show-kept").run());
        layOut();
        Bounds side = place(robot.lookup("#side").query());
        for (String id : List.of("#check-button", "#save-button", "#sheet-button")) {
            Node button = robot.from(robot.lookup("#ledger-view").<Node>query()).lookup(id).query();
            assertThat(place(button).getMaxX()).as(id).isLessThanOrEqualTo(side.getMaxX());
        }
    }

    /** What a field is for is read in it as long as it is empty. */
    @Test
    void promptsAreSeenWholeAtLargeText(FxRobot robot) {
        robot.interact(
                () -> {
                    stage.setWidth(1024);
                    stage.setHeight(640);
                    model.look().setTextSize(20);
                });
        layOut();
        assertPrompts(robot, "#net-field", "#pad-field", "#find-field");
        robot.interact(() -> OpenWindow.actions(stage).get("show-watch").run());
        layOut();
        assertPrompts(robot, "#watch-when", "#watch-clock", "#watch-pad");
        ChoiceBox<CircuitSort> sorts = robot.lookup("#watch-sort").query();
        robot.interact(() -> sorts.setValue(CircuitSort.SELECT));
        layOut();
        assertPrompts(robot, "#watch-nets", "#watch-by");
        robot.interact(() -> OpenWindow.actions(stage).get("show-nets").run());
        robot.interact(() -> model.look().setTextSize(14));
        layOut();
        assertPrompts(robot, "#nets-filter");
    }

    private static void assertPrompts(FxRobot robot, String... ids) {
        for (String id : ids) {
            TextField field = robot.lookup(id).query();
            Text prompt = new Text(field.getPromptText());
            prompt.setFont(field.getFont());
            Insets around = field.getInsets();
            assertThat(prompt.getLayoutBounds().getWidth())
                    .as(id)
                    .isPositive()
                    .isLessThanOrEqualTo(field.getWidth() - around.getLeft() - around.getRight());
        }
    }

    /** Where there is room for the filter of the list, a what-if does not cover half of it. */
    @ParameterizedTest
    @CsvSource({"1024, 640, 14", "1280, 720, 14", "1280, 720, 20"})
    void aWhatIfLeavesTheFilterWhole(int width, int height, int text, FxRobot robot) {
        robot.interact(
                () -> {
                    stage.setWidth(width);
                    stage.setHeight(height);
                    model.look().setTextSize(text);
                    OpenWindow.actions(stage).get("show-routes").run();
                    ask("J1.3");
                    model.shown().tryIt();
                });
        layOut();
        double top = place(robot.lookup("#what-if-bar").query()).getMinY();
        Bounds filter = place(robot.lookup("#routes-filter-text").query());
        assertThat(filter.getMaxY() <= top || filter.getMinY() + 4 >= top)
                .as(
                        "filter from %s to %s, what-if from %s",
                        filter.getMinY(), filter.getMaxY(), top)
                .isTrue();
        if (text == 14) {
            assertThat(filter.getMaxY()).isLessThanOrEqualTo(top);
        }
        Bounds bar = place(robot.lookup("#what-if-bar").query());
        assertThat(place(robot.lookup("#what-if-cost").query()).getMaxY())
                .as("what it costs")
                .isLessThanOrEqualTo(bar.getMaxY());
    }

    /** At the usual sizes, all numbers of the list of nets are in sight. */
    @Test
    void theNumbersOfNetsFit(FxRobot robot) {
        robot.interact(
                () -> {
                    stage.setWidth(1280);
                    stage.setHeight(720);
                    OpenWindow.actions(stage).get("show-nets").run();
                });
        layOut();
        Node rows = robot.lookup("#nets-table .virtual-flow .clipped-container").query();
        TreeTableView<?> table = robot.lookup("#nets-table").queryAs(TreeTableView.class);
        double numbers =
                table.getColumns().subList(0, 5).stream()
                        .mapToDouble(TableColumnBase::getWidth)
                        .sum();
        assertThat(numbers).isLessThanOrEqualTo(rows.getLayoutBounds().getWidth());
    }

    /** Decisions stay in reach there too. */
    @Test
    void aWhatIfIsDecidedAtLargeText(FxRobot robot) {
        robot.interact(
                () -> {
                    stage.setWidth(1024);
                    stage.setHeight(640);
                    model.look().setTextSize(20);
                    ask("J1.3");
                    model.shown().tryIt();
                });
        layOut();
        Bounds answer = place(robot.lookup("#answer-part").query());
        assertThat(overlap(answer, place(robot.lookup("#side").query())))
                .as("lists over dangers")
                .isLessThan(2);
        Bounds bar = place(robot.lookup("#what-if-bar").query());
        for (String id : List.of("#what-if-accept", "#keep-button", "#drop-button")) {
            Bounds at = place(robot.lookup(id).query());
            assertThat(at.getMaxY()).as(id).isLessThanOrEqualTo(bar.getMaxY() + 0.5);
            assertThat(at.getMaxX()).as(id).isLessThanOrEqualTo(bar.getMaxX() + 0.5);
        }
    }

    /** Choices are read in full, also where the text is large, and nothing scrolls sideways. */
    @ParameterizedTest
    @CsvSource({"1024, 640", "1920, 1080"})
    void choicesHaveAllTheirText(int width, int height, FxRobot robot) {
        robot.interact(
                () -> {
                    stage.setWidth(width);
                    stage.setHeight(height);
                    model.look().setTextSize(14);
                    ask("J1.3");
                    OpenWindow.actions(stage).get("show-exercises").run();
                });
        layOut();
        robot.interact(
                () -> {
                    model.look().setTextSize(20);
                    OpenWindow.actions(stage).get("show-steps").run();
                });
        layOut();
        ScrollPane steps = robot.lookup("#steps").queryAs(ScrollPane.class);
        assertThat(((Region) steps.getContent()).getWidth())
                .as("width of the steps")
                .isLessThanOrEqualTo(steps.getViewportBounds().getWidth() + 1);
        robot.interact(() -> OpenWindow.actions(stage).get("show-exercises").run());
        layOut();
        Node kind = robot.lookup("#exercise-kind").query();
        Bounds text = place(robot.from(kind).lookup(".text").query());
        Bounds arrow = place(robot.from(kind).lookup(".arrow").query());
        assertThat(text.getMaxX()).as("text before the arrow").isLessThan(arrow.getMinX());
    }

    private static void layOut() {
        for (int pulse = 0; pulse < 3; pulse++) {
            WaitForAsyncUtils.waitForFxEvents();
        }
    }

    private static boolean shown(Node node) {
        return node == null || node.isVisible() && shown(node.getParent());
    }

    /** Rows with something in them that can be seen in full. */
    private static long rowsIn(FxRobot robot, Bounds table) {
        return robot
                .from(robot.lookup("#routes-table").<Node>query())
                .lookup(".table-row-cell")
                .queryAllAs(IndexedCell.class)
                .stream()
                .filter(r -> !r.isEmpty() && place(r).getMaxY() <= table.getMaxY())
                .count();
    }

    private void ask(String pad) {
        model.shown().netTextProperty().set("pump/level/sample[1]");
        model.shown().padTextProperty().set(pad);
        model.shown().ask();
    }

    /** The names of the design and of all panels, and the texts of buttons, stand in full. */
    private static void assertNothingIsCutOff(FxRobot robot) {
        TabPane panels = robot.lookup("#panels").queryAs(TabPane.class);
        Bounds side = place(panels);
        for (int i = 0; i < panels.getTabs().size(); i++) {
            Node tab = robot.from(panels).lookup("#" + panels.getTabs().get(i).getId()).query();
            assertThat(place(tab).getMaxX()).as(tab.getId()).isLessThanOrEqualTo(side.getMaxX());
        }
        Label name = robot.lookup("#design-name").queryAs(Label.class);
        assertThat(name.getWidth()).isGreaterThanOrEqualTo(name.prefWidth(-1) - 1);
        Stream<Button> buttons =
                robot.lookup(".button").queryAllAs(Button.class).stream()
                        .filter(b -> b.getWidth() > 0 && !b.getText().isEmpty());
        assertThat(buttons)
                .allSatisfy(
                        b ->
                                assertThat(b.getWidth())
                                        .as(b.getText())
                                        .isGreaterThanOrEqualTo(b.minWidth(-1) - 1));
    }

    private static Bounds place(Node node) {
        return node.localToScene(node.getLayoutBounds());
    }

    /** The lesser side of what two places have in common, pixels. */
    private static double overlap(Bounds one, Bounds other) {
        double wide =
                Math.min(one.getMaxX(), other.getMaxX()) - Math.max(one.getMinX(), other.getMinX());
        double high =
                Math.min(one.getMaxY(), other.getMaxY()) - Math.max(one.getMinY(), other.getMinY());
        return Math.min(wide, high);
    }
}
