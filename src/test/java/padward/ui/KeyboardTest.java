package padward.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import javafx.event.Event;
import javafx.geometry.Bounds;
import javafx.scene.Node;
import javafx.scene.Parent;
import javafx.scene.Scene;
import javafx.scene.control.Labeled;
import javafx.scene.control.RadioButton;
import javafx.scene.control.Spinner;
import javafx.scene.control.TabPane;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.stage.Stage;
import javafx.stage.Window;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import padward.ui.model.WindowModel;

/**
 * Whoever does not use a mouse, or does not see the window: everything that takes the focus has a
 * name, is reached by Tab, and comes in the order in which one reads.
 */
@ExtendWith(ApplicationExtension.class)
class KeyboardTest {
    private static final String NET = "pump/level/sample[1]";

    /** More controls than any state of the window has. */
    private static final int MOST_STEPS = 120;

    /** Parts of the window in the order of reading; not all of them are always there. */
    private static final List<String> PARTS =
            List.of(
                    "top-bar",
                    "question-tabs",
                    "question-row",
                    "answer-bar",
                    "notes",
                    "map-bar",
                    "map",
                    "strip-map",
                    "panels",
                    "unblock-options",
                    "what-if-bar",
                    "kept-strip");

    private WindowModel model;
    private Stage stage;

    @Start
    void start(Stage given) {
        stage = given;
        stage.setWidth(1280);
        stage.setHeight(800);
        model = OpenWindow.show(stage);
    }

    private void open(FxRobot robot) {
        robot.interact(() -> model.open(Path.of("fixtures/small/only.design.json")));
    }

    private void ask(FxRobot robot, String pad) {
        OpenWindow.ask(robot, model, NET, pad);
    }

    @Test
    void theEmptyWindow(FxRobot robot) {
        check(robot, "empty");
    }

    @Test
    void openAnsweredBlockedTriedAndKept(FxRobot robot) {
        open(robot);
        check(robot, "open");
        ask(robot, "J1.2");
        check(robot, "a way is there");
        ask(robot, "x3y0/pad[0]");
        check(robot, "no way");
        ask(robot, "J9.9");
        check(robot, "a note");
        ask(robot, "J2.1");
        check(robot, "blocked");
        robot.interact(model.shown()::tryIt);
        check(robot, "a trial");
        robot.interact(() -> OpenWindow.actions(stage).get("keep").run());
        check(robot, "kept");
        robot.interact(() -> model.questions().open(NET));
        check(robot, "two questions");
    }

    @Test
    void eachPanel(FxRobot robot) {
        open(robot);
        ask(robot, "J2.1");
        TabPane panels = robot.lookup("#panels").queryAs(TabPane.class);
        for (int i = 0; i < panels.getTabs().size(); i++) {
            int index = i;
            robot.interact(() -> panels.getSelectionModel().select(index));
            WaitForAsyncUtils.waitForFxEvents();
            check(robot, panels.getTabs().get(i).getText());
        }
    }

    @Test
    void theWindowOfTheSheetAndTheHelp(FxRobot robot) {
        open(robot);
        ask(robot, "J2.1");
        robot.interact(model.shown()::tryIt);
        robot.interact(() -> OpenWindow.actions(stage).get("keep").run());
        for (String action : List.of("sheet", "help")) {
            robot.interact(() -> OpenWindow.actions(stage).get(action).run());
            Window window =
                    Window.getWindows().stream().filter(w -> w != stage).findFirst().orElseThrow();
            assertNamed(focusable(window.getScene().getRoot()), action);
            robot.interact(window::hide);
        }
    }

    @Test
    void theFocusStaysNearWhenWhatHadItGoes(FxRobot robot) {
        open(robot);
        ask(robot, "J2.1");
        robot.interact(() -> robot.lookup("#try-button").query().requestFocus());
        robot.interact(() -> OpenWindow.actions(stage).get("try").run());
        assertThat(focused(robot).getId()).isEqualTo("keep-button");
        robot.interact(() -> OpenWindow.actions(stage).get("drop").run());
        assertThat(focused(robot).getId()).isEqualTo("try-button");
        TabPane panels = robot.lookup("#panels").queryAs(TabPane.class);
        robot.interact(() -> robot.lookup("#routes-table").query().requestFocus());
        robot.interact(() -> panels.getSelectionModel().select(1));
        assertThat(focused(robot)).isSameAs(panels);
    }

    private Node focused(FxRobot robot) {
        // The focus is looked after at the end of a frame.
        for (int pulse = 0; pulse < 3; pulse++) {
            WaitForAsyncUtils.waitForFxEvents();
        }
        Node[] owner = new Node[1];
        robot.interact(() -> owner[0] = stage.getScene().getFocusOwner());
        return owner[0];
    }

    private void check(FxRobot robot, String state) {
        WaitForAsyncUtils.waitForFxEvents();
        List<Node> all = focusable(stage.getScene().getRoot());
        assertNamed(all, state);
        List<Node> round = round(robot, state);
        assertThat(round.stream().map(KeyboardTest::told))
                .as("reached by Tab: " + state)
                .containsAll(
                        all.stream()
                                .filter(KeyboardTest::isReachedByTab)
                                .map(KeyboardTest::told)
                                .collect(Collectors.toSet()));
        assertInOrder(round, state);
    }

    /** Tables, lists and groups of choices are entered by Tab, and gone about in by arrows. */
    private static boolean isReachedByTab(Node node) {
        return !(node instanceof RadioButton);
    }

    private static void assertNamed(List<Node> nodes, String state) {
        assertThat(nodes).isNotEmpty();
        assertThat(nodes.stream().filter(n -> name(n).isBlank()).map(KeyboardTest::told))
                .as("without a name: " + state)
                .isEmpty();
    }

    /** What is read out: its own name, or else the text on it that is more than a sign. */
    private static String name(Node node) {
        String own = node.getAccessibleText();
        if (own != null && !own.isBlank()) {
            return own;
        }
        String text = node instanceof Labeled labeled ? labeled.getText() : "";
        return text != null && text.chars().anyMatch(Character::isLetter) ? text : "";
    }

    /** Everything in a part of the window that can be seen and can take the focus. */
    private static List<Node> focusable(Node part) {
        List<Node> result = new ArrayList<>();
        if (!part.isVisible() || part.isDisabled()) {
            return result;
        }
        if (part.isFocusTraversable()) {
            result.add(part);
        }
        // A spinner's field is a part of it, and speaks for it.
        if (part instanceof Parent parent && !(part instanceof Spinner)) {
            parent.getChildrenUnmodifiable().forEach(c -> result.addAll(focusable(c)));
        }
        return result;
    }

    /** Where Tab leads, from the first control of the window until it comes round. */
    private List<Node> round(FxRobot robot, String state) {
        Set<Node> seen = new LinkedHashSet<>();
        Scene scene = stage.getScene();
        robot.interact(
                () -> {
                    scene.lookup("#find-field").requestFocus();
                    while (seen.size() < MOST_STEPS && seen.add(scene.getFocusOwner())) {
                        press(scene.getFocusOwner(), KeyCode.TAB);
                    }
                });
        assertThat(seen.size()).as("Tab comes round: " + state).isLessThan(MOST_STEPS);
        return List.copyOf(seen);
    }

    /** Keys are fired at once, for which a robot would take its time. */
    private static void press(Node on, KeyCode code) {
        for (var type : List.of(KeyEvent.KEY_PRESSED, KeyEvent.KEY_RELEASED)) {
            Event.fireEvent(on, new KeyEvent(type, "", "", code, false, false, false, false));
        }
    }

    private static void assertInOrder(List<Node> round, String state) {
        int last = 0;
        Node before = round.get(0);
        for (Node node : round) {
            int part = part(node);
            assertThat(part)
                    .as("%s after %s: %s", told(node), told(before), state)
                    .isGreaterThanOrEqualTo(last);
            boolean sameRow =
                    part == last
                            && bounds(node).getMinY() < bounds(before).getMaxY()
                            && node != before;
            if (sameRow && Math.abs(bounds(node).getCenterY() - bounds(before).getCenterY()) < 6) {
                assertThat(bounds(node).getMinX())
                        .as("%s right of %s: %s", told(node), told(before), state)
                        .isGreaterThanOrEqualTo(bounds(before).getMinX());
            }
            last = part;
            before = node;
        }
    }

    private static Bounds bounds(Node node) {
        return node.localToScene(node.getLayoutBounds());
    }

    private static int part(Node node) {
        List<String> ids =
                Stream.iterate(node, n -> n != null, Node::getParent)
                        .map(Node::getId)
                        .filter(id -> id != null)
                        .toList();
        for (int i = 0; i < PARTS.size(); i++) {
            if (ids.contains(PARTS.get(i))) {
                return i;
            }
        }
        throw new AssertionError(told(node) + " stands in no part of the window");
    }

    private static String told(Node node) {
        return node.getClass().getSimpleName()
                + " "
                + node.getId()
                + " “"
                + (node instanceof Labeled labeled ? labeled.getText() : "")
                + "”";
    }
}
