package padward.ui.group;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.TabPane;
import javafx.scene.control.TextField;
import javafx.scene.input.KeyCode;
import javafx.stage.Stage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import padward.ui.OpenWindow;
import padward.ui.model.WindowModel;
import padward.ui.work.HeldBackground;

/**
 * A group is shown in two parts: its routes as soon as they are found, then what lets one more out
 * and the table. Whatever ends first, and whatever the user does between, the panel shows the group
 * that was asked for last, and in the end all of it.
 */
@ExtendWith(ApplicationExtension.class)
class GroupPartsTest {
    private static final String NETS = "pump/level/*, alarm/*";
    private static final String SOON = "These routes can be used already.";

    /** The three that race: the rest of the group, and two questions. */
    private static final int[][] ORDERS = {
        {0, 1, 2}, {0, 2, 1}, {1, 0, 2}, {1, 2, 0}, {2, 0, 1}, {2, 1, 0}
    };

    private final HeldBackground background = new HeldBackground();
    private WindowModel model;

    @Start
    void start(Stage stage) {
        model = OpenWindow.show(stage, background);
        stage.setWidth(1280);
        stage.setHeight(800);
        model.open(Path.of("fixtures/small/only.design.json"));
        background.endAll();
    }

    private static String text(FxRobot robot, String id) {
        WaitForAsyncUtils.waitForFxEvents();
        return robot.lookup(id).queryAs(Label.class).getText();
    }

    private void endAll(FxRobot robot) {
        robot.interact(background::endAll);
    }

    /** Asks for a group; ends the reading of its fields. */
    private void route(FxRobot robot, String nets) {
        endAll(robot);
        robot.interact(
                () -> {
                    robot.lookup("#group-nets").queryAs(TextField.class).setText(nets);
                    robot.lookup("#group-pads").queryAs(TextField.class).setText("header J2");
                });
        endAll(robot);
        robot.interact(() -> robot.lookup("#group-route").queryAs(Button.class).fire());
        endNewest(robot);
    }

    private void endNewest(FxRobot robot) {
        robot.interact(() -> background.end(newest()));
    }

    private Object newest() {
        return background.jobs().get(background.running() - 1);
    }

    private void selectGroup(FxRobot robot) {
        robot.interact(
                () -> {
                    TabPane tabs = robot.lookup("#panels").queryAs(TabPane.class);
                    tabs.getTabs().stream()
                            .filter(t -> t.getId().equals("group-tab"))
                            .forEach(t -> tabs.getSelectionModel().select(t));
                });
        endAll(robot);
    }

    @Test
    void theRoutesAreShownBeforeTheRest(FxRobot robot) {
        selectGroup(robot);
        route(robot, NETS);
        endNewest(robot);
        assertThat(text(robot, "#group-totals"))
                .startsWith("7 nets, 2 pads: 2 of 7 served; no more can be brought out together")
                .contains("Sum of slow-corner delays")
                .doesNotContain("Proven: ");
        assertThat(text(robot, "#group-message")).startsWith(SOON);
        assertThat(robot.lookup("#group-keep").queryAs(Button.class).isDisabled()).isFalse();
        endAll(robot);
        assertThat(text(robot, "#group-totals"))
                .contains("Proven: ")
                .contains("Sum of slow-corner delays");
        assertThat(text(robot, "#group-message")).doesNotContain(SOON);
    }

    /** The rest of the group, and two questions end in each order. */
    @Test
    void whateverEndsFirstAllIsShownInTheEnd(FxRobot robot) {
        selectGroup(robot);
        route(robot, NETS);
        endAll(robot);
        String whole = text(robot, "#group-totals");
        for (int[] order : ORDERS) {
            route(robot, NETS);
            List<Object> racing = new ArrayList<>();
            endNewest(robot);
            racing.add(newest());
            robot.interact(
                    () -> {
                        model.shown().netTextProperty().set("pump/level/sample[1]");
                        model.shown().padTextProperty().set("J1.3");
                        model.shown().ask();
                    });
            racing.add(newest());
            robot.interact(
                    () -> {
                        model.questions().open("");
                        model.shown().netTextProperty().set("alarm/beep");
                        model.shown().padTextProperty().set("J2.1");
                        model.shown().ask();
                    });
            racing.add(newest());
            for (int which : order) {
                robot.interact(() -> background.end(racing.get(which)));
                String shown = text(robot, "#group-totals");
                assertThat(shown).startsWith("7 nets, 2 pads: 2 of 7 served");
            }
            endAll(robot);
            assertThat(text(robot, "#group-totals")).isEqualTo(whole);
            assertThat(text(robot, "#group-message")).doesNotContain(SOON);
        }
    }

    /** Another group is asked for while the rest of the first is found out. */
    @Test
    void theRestOfAGroupThatIsNoLongerAskedForIsDropped(FxRobot robot) {
        selectGroup(robot);
        route(robot, "pump/level/sample[0]");
        endAll(robot);
        String other = text(robot, "#group-totals");
        route(robot, NETS);
        endNewest(robot);
        Object rest = newest();
        robot.interact(
                () -> {
                    robot.lookup("#group-nets")
                            .queryAs(TextField.class)
                            .setText("pump/level/sample[0]");
                    robot.lookup("#group-route").queryAs(Button.class).fire();
                });
        robot.interact(() -> background.end(rest));
        endAll(robot);
        assertThat(text(robot, "#group-totals")).isEqualTo(other);
        assertThat(text(robot, "#group-message")).doesNotContain(SOON);
    }

    /** Escape keeps the routes; what is not known then is not promised. */
    @Test
    void theRestCanBeStopped(FxRobot robot) {
        selectGroup(robot);
        route(robot, NETS);
        endNewest(robot);
        robot.push(KeyCode.ESCAPE);
        robot.push(KeyCode.ESCAPE);
        endAll(robot);
        assertThat(text(robot, "#group-totals"))
                .startsWith("7 nets, 2 pads: 2 of 7 served")
                .doesNotContain("Proven: ");
        assertThat(text(robot, "#group-message")).doesNotContain(SOON);
    }

    /** A field that cannot be read is a fault to tell of, and the rest of the group still comes. */
    @Test
    void aFaultInAFieldDoesNotKeepTheRestAway(FxRobot robot) {
        selectGroup(robot);
        for (int[] order : ORDERS) {
            route(robot, NETS);
            List<Object> racing = new ArrayList<>();
            endNewest(robot);
            racing.add(newest());
            robot.interact(
                    () -> {
                        model.shown().netTextProperty().set("pump/level/sample[1]");
                        model.shown().padTextProperty().set("J1.3");
                        model.shown().ask();
                    });
            racing.add(newest());
            robot.interact(
                    () -> {
                        robot.lookup("#group-nets").queryAs(TextField.class).setText("no/such/net");
                        robot.lookup("#group-route").queryAs(Button.class).fire();
                    });
            racing.add(newest());
            for (int which : order) {
                robot.interact(() -> background.end(racing.get(which)));
            }
            endAll(robot);
            assertThat(text(robot, "#group-totals"))
                    .startsWith("7 nets, 2 pads: 2 of 7 served")
                    .contains("Proven: ");
            assertThat(model.notes().all()).isNotEmpty();
            robot.interact(
                    () -> robot.lookup("#group-nets").queryAs(TextField.class).setText(NETS));
            assertThat(text(robot, "#group-message")).doesNotContain(SOON);
        }
    }

    /** What is stopped before it has a result leaves the group, whose rest still comes. */
    @Test
    void aStopOfPinOrMatchDoesNotKeepTheRestAway(FxRobot robot) {
        selectGroup(robot);
        for (boolean pins : List.of(true, false)) {
            route(robot, NETS);
            if (pins) {
                endAll(robot);
                pin(robot);
                endAll(robot);
                robot.push(KeyCode.ENTER);
            }
            endNewest(robot);
            assertThat(text(robot, "#group-message")).startsWith(SOON);
            Object rest = newest();
            if (pins) {
                robot.push(KeyCode.ENTER);
            } else {
                match(robot);
            }
            WaitForAsyncUtils.waitForFxEvents();
            assertThat(newest()).isNotEqualTo(rest);
            robot.push(KeyCode.ESCAPE);
            assertThat(text(robot, "#group-totals"))
                    .as("pins: %s", pins)
                    .startsWith("7 nets, 2 pads: 2 of 7 served")
                    .doesNotContain("Proven: ");
            assertThat(text(robot, "#group-message")).startsWith(SOON);
            endAll(robot);
            assertThat(text(robot, "#group-totals")).as("pins: %s", pins).contains("Proven: ");
            assertThat(text(robot, "#group-message")).doesNotContain(SOON);
        }
    }

    /** A pin is marked before its routes are found, and not when they are not looked for. */
    @Test
    void aPinIsMarkedAtOnceAndNotAfterAStop(FxRobot robot) {
        selectGroup(robot);
        route(robot, NETS);
        endNewest(robot);
        GroupView view = robot.lookup("#group").queryAs(GroupView.class);
        robot.interact(() -> robot.lookup("#group-matrix").query().requestFocus());
        robot.push(KeyCode.RIGHT);
        assertThat(text(robot, "#group-message")).doesNotContain("stopped");
        robot.push(KeyCode.ENTER);
        assertThat(view.group().pinned()).as("at once, whatever is known of it").hasSize(1);
        Map<Integer, Integer> pin = Map.copyOf(view.group().pinned());
        robot.push(KeyCode.ESCAPE);
        assertThat(view.group().pinned()).as("stopped").isEmpty();
        endAll(robot);
        assertThat(view.group().pinned()).isEmpty();
        robot.push(KeyCode.ENTER);
        endAll(robot);
        assertThat(view.group().pinned()).isIn(pin, Map.of());
    }

    /** Matched before the rest was known, and again: the rest is shown each time. */
    @Test
    void matchingAgainKeepsWhatIsKnown(FxRobot robot) {
        selectGroup(robot);
        route(robot, NETS);
        endNewest(robot);
        match(robot);
        endNewest(robot);
        assertThat(text(robot, "#group-totals"))
                .contains("before matching")
                .doesNotContain("Proven: ");
        assertThat(text(robot, "#group-message")).startsWith(SOON);
        endAll(robot);
        String whole = text(robot, "#group-totals");
        assertThat(whole).contains("Proven: ");
        match(robot);
        endNewest(robot);
        assertThat(text(robot, "#group-totals")).isEqualTo(whole);
        endAll(robot);
        assertThat(text(robot, "#group-totals")).isEqualTo(whole);
        assertThat(text(robot, "#group-message")).doesNotContain(SOON);
    }

    /** Without its last pin a group is shown as soon as its routes are found, as at first. */
    @Test
    void theRoutesAreShownBeforeTheRestWhenAPinIsTakenOff(FxRobot robot) {
        selectGroup(robot);
        route(robot, NETS);
        endAll(robot);
        String whole = text(robot, "#group-totals");
        pin(robot);
        endAll(robot);
        assertThat(text(robot, "#group-totals")).doesNotContain("Proven: ");
        robot.push(KeyCode.ENTER);
        endNewest(robot);
        assertThat(text(robot, "#group-totals"))
                .startsWith("7 nets, 2 pads: 2 of 7 served; no more can be brought out together")
                .doesNotContain("Proven: ");
        assertThat(text(robot, "#group-message")).startsWith(SOON);
        endAll(robot);
        assertThat(text(robot, "#group-totals")).isEqualTo(whole);
        assertThat(text(robot, "#group-message")).doesNotContain(SOON);
    }

    /** Pins the pair that the keys come to first. */
    private static void pin(FxRobot robot) {
        robot.interact(() -> robot.lookup("#group-matrix").query().requestFocus());
        robot.push(KeyCode.RIGHT).push(KeyCode.ENTER);
        WaitForAsyncUtils.waitForFxEvents();
    }

    private static void match(FxRobot robot) {
        robot.interact(() -> robot.lookup("#group-match").queryAs(Button.class).fire());
    }
}
