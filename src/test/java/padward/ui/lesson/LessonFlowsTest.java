package padward.ui.lesson;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import javafx.event.ActionEvent;
import javafx.scene.control.Hyperlink;
import javafx.scene.control.MenuItem;
import javafx.scene.control.RadioButton;
import javafx.scene.control.TextField;
import javafx.scene.input.KeyCode;
import javafx.stage.Stage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import padward.base.Progress;
import padward.fabric.delay.Corner;
import padward.lesson.LearnerRecord;
import padward.lesson.LessonStep;
import padward.lesson.UserAction;
import padward.lesson.exercise.Difficulty;
import padward.lesson.exercise.Exercise;
import padward.lesson.exercise.ExerciseKind;
import padward.lesson.exercise.ExerciseMaker;
import padward.lesson.file.Course;
import padward.lesson.file.LearnerFolder;
import padward.ui.draw.Viewport;
import padward.ui.map.MapView;
import padward.watch.request.CircuitSort;

/** Every lesson solved, and every lesson failed, in the real window. */
@ExtendWith(ApplicationExtension.class)
class LessonFlowsTest {
    private static final String S0 = "pump/level/sample[0]";
    private static final String S1 = "pump/level/sample[1]";

    private LessonWindow window;
    private Path learners;

    /**
     * A mistake of a learner.
     *
     * @param solved number of steps done right before
     * @param actions what is done then
     * @param says what the lesson says
     */
    private record Wrong(int solved, List<UserAction> actions, String says) {}

    private static UserAction ask(String net, String pad) {
        return new UserAction.Ask(net, pad, Corner.SLOW);
    }

    private static final UserAction TRY = new UserAction.TryIt();
    private static final UserAction KEEP = new UserAction.Keep();

    private static final Map<String, Wrong> WRONG =
            Map.of(
                    "boxes",
                    new Wrong(0, List.of(ask(S1, "J1.3")), "That is pin 3"),
                    "strip-map",
                    new Wrong(
                            1,
                            List.of(new UserAction.ChooseHop("x7y3/outreg[1].q")),
                            "Near, but not"),
                    "branching",
                    new Wrong(
                            1,
                            List.of(new UserAction.ChooseHop("x4y5/cell[0].out")),
                            "That is the net's driver"),
                    "io-register",
                    new Wrong(
                            1,
                            List.of(new UserAction.ChooseHop("x3y3/run3_e[1]")),
                            "Nothing uses that wire"),
                    "enable",
                    new Wrong(
                            4,
                            List.of(ask("gauge/depth", "J1.1"), TRY, KEEP),
                            "is always on. Undo"),
                    "unblocking",
                    new Wrong(
                            3, List.of(ask(S1, "J1.3"), TRY, KEEP), "port motor has lost its pad"),
                    "skew",
                    new Wrong(
                            0,
                            List.of(ask(S0, "J1.4"), TRY, KEEP, ask(S1, "J1.1"), TRY, KEEP),
                            "J1.4 is the pin with the shortest delay"),
                    "cautions",
                    new Wrong(1, List.of(TRY, KEEP), "Stop: something on the board"),
                    "trigger",
                    new Wrong(
                            1,
                            List.of(
                                    new UserAction.Watch(
                                            CircuitSort.TRIGGER,
                                            "level/sample == 3",
                                            "J1.2",
                                            false)),
                            "straight from the table"));

    @Start
    void start(Stage stage) throws Exception {
        learners = Files.createTempDirectory("learners");
        window = LessonWindow.show(stage, learners, 1280, 800);
    }

    private void begin(FxRobot robot, Course.Place place) {
        if (LessonWindow.has(robot, "#lesson-all")) {
            window.fire(robot, "#lesson-all");
        }
        window.fire(robot, "#lesson-begin-" + place.lesson().number());
        assertThat(LessonWindow.text(robot, "#lesson-title"))
                .isEqualTo(
                        "Lesson " + place.lesson().number() + " of 9: " + place.lesson().title());
    }

    private void solve(FxRobot robot, Course.Place place, int from, int to) {
        for (LessonStep step : place.lesson().steps().subList(from, to)) {
            assertThat(LessonWindow.text(robot, "#lesson-task")).contains(step.task());
            step.solution().forEach(a -> window.act(robot, a));
        }
    }

    private LearnerRecord record() throws Exception {
        return LearnerFolder.at(learners).read(System.getProperty("user.name"));
    }

    @Test
    void everyLessonCanBeFailedAndSolved(FxRobot robot) throws Exception {
        window.tab(robot, "lessons");
        for (Course.Place place : Course.builtIn().places()) {
            String name = place.lesson().name();
            Wrong wrong = WRONG.get(name);
            begin(robot, place);
            solve(robot, place, 0, wrong.solved());
            wrong.actions().forEach(a -> window.act(robot, a));
            assertThat(LessonWindow.text(robot, "#lesson-mistake")).as(name).contains(wrong.says());
            assertThat(LessonWindow.has(robot, "#lesson-solved")).isFalse();
            assertThat(record().lessons().get(name).isSolved()).isFalse();
            assertThat(record().lessons().get(name).mistakes()).isPositive();
            int mistakes = record().lessons().get(name).mistakes();
            window.fire(robot, "#lesson-again");
            assertThat(LessonWindow.has(robot, "#lesson-mistake")).isFalse();
            solve(robot, place, 0, place.lesson().steps().size());
            assertThat(LessonWindow.has(robot, "#lesson-solved")).as(name).isTrue();
            assertThat(LessonWindow.text(robot, "#lesson-why")).isEqualTo(place.lesson().why());
            assertThat(record().lessons().get(name).isSolved()).isTrue();
            assertThat(record().lessons().get(name).mistakes()).isEqualTo(mistakes);
        }
        assertThat(LessonWindow.has(robot, "#lesson-next")).isFalse();
    }

    @Test
    void anUndoneMistakeIsNoLongerShown(FxRobot robot) throws Exception {
        window.tab(robot, "lessons");
        Course.Place cautions = Course.builtIn().find("cautions").orElseThrow();
        begin(robot, cautions);
        solve(robot, cautions, 0, 1);
        window.act(robot, TRY);
        window.act(robot, KEEP);
        assertThat(LessonWindow.has(robot, "#lesson-mistake")).isTrue();
        assertThat(window.model().notes().all()).isEmpty();
        window.act(robot, new UserAction.Undo());
        assertThat(LessonWindow.has(robot, "#lesson-mistake")).isFalse();
        solve(robot, cautions, 1, 2);
        assertThat(LessonWindow.has(robot, "#lesson-solved")).isTrue();
        assertThat(record().lessons().get("cautions").mistakes()).isEqualTo(1);
    }

    @Test
    void hintsAreGivenOneByOneAndTheSolutionWhenAskedFor(FxRobot robot) throws Exception {
        window.tab(robot, "lessons");
        Course.Place boxes = Course.builtIn().places().get(0);
        begin(robot, boxes);
        LessonStep step = boxes.lesson().steps().get(0);
        assertThat(LessonWindow.text(robot, "#lesson-so-far")).contains("nothing has been asked");
        window.fire(robot, "#lesson-hint");
        assertThat(LessonWindow.text(robot, "#lesson-hint-1")).contains(step.hints().get(0));
        assertThat(LessonWindow.has(robot, "#lesson-hint-2")).isFalse();
        window.fire(robot, "#lesson-show");
        assertThat(LessonWindow.text(robot, "#lesson-how"))
                .contains("ask for net " + S1 + " on pad J1.2");
        assertThat(record().lessons().get("boxes").hints()).isEqualTo(2);
        robot.interact(() -> window.model().open(Path.of("fixtures/small/around.design.json")));
        assertThat(LessonWindow.has(robot, "#lesson-task")).isFalse();
        window.fire(robot, "#lesson-again");
        assertThat(LessonWindow.text(robot, "#lesson-task")).contains(step.task());
    }

    /** The net and the pad of a task need not be typed, nor be sought on the map. */
    @Test
    void namesInATaskLeadToThemAndIntoTheQuestion(FxRobot robot) throws Exception {
        window.tab(robot, "lessons");
        begin(robot, Course.builtIn().places().get(0));
        window.fire(robot, "#lesson-show");
        Hyperlink net = link(robot, S1);
        Viewport before = robot.lookup("#map").queryAs(MapView.class).viewport();
        robot.interact(net::requestFocus);
        robot.push(KeyCode.SPACE);
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(robot.lookup("#map").queryAs(MapView.class).viewport()).isNotEqualTo(before);
        robot.interact(() -> item(net, "Bring out this net").fire());
        robot.interact(() -> item(link(robot, "J1.2"), "Use this pad").fire());
        assertThat(window.model().shown().netTextProperty().get()).isEqualTo(S1);
        assertThat(window.model().shown().padTextProperty().get()).isEqualTo("J1.2");
        window.fire(robot, "#ask-button");
        assertThat(LessonWindow.text(robot, "#lesson-task")).startsWith("▸ Task 2");
    }

    private static Hyperlink link(FxRobot robot, String name) {
        return robot.lookup("#lesson-how .hyperlink").queryAllAs(Hyperlink.class).stream()
                .filter(l -> l.getText().equals(name))
                .findFirst()
                .orElseThrow();
    }

    private static MenuItem item(Hyperlink link, String text) {
        return link.getContextMenu().getItems().stream()
                .filter(i -> i.getText().equals(text))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void anotherLearnerHasTheirOwnProgress(FxRobot robot) throws Exception {
        window.tab(robot, "lessons");
        Course.Place boxes = Course.builtIn().places().get(0);
        begin(robot, boxes);
        solve(robot, boxes, 0, 3);
        window.fire(robot, "#lesson-all");
        assertThat(LessonWindow.text(robot, "#lesson-state-1")).startsWith("solved ");
        TextField name = robot.lookup("#learner-name").queryAs(TextField.class);
        robot.interact(
                () -> {
                    name.setText("anna");
                    name.fireEvent(new ActionEvent());
                });
        assertThat(LessonWindow.text(robot, "#lesson-state-1")).isEqualTo("not started");
    }

    @Test
    void exercisesAreMarkedAgainstTheCalculatedAnswer(FxRobot robot) throws Exception {
        window.tab(robot, "exercises");
        window.fire(robot, "#exercise-ask");
        assertThat(LessonWindow.text(robot, "#exercise-text")).contains("must be empty");
        Exercise exercise =
                new ExerciseMaker(window.model().openedProperty().get().orElseThrow().design())
                        .make(ExerciseKind.SITE, Difficulty.EASY, seed(robot), Progress.NONE)
                        .orElseThrow();
        Exercise.Truth.OneOf truth = (Exercise.Truth.OneOf) exercise.truth();
        choose(robot, truth.right());
        assertThat(LessonWindow.text(robot, "#exercise-mark")).startsWith("✓ Right");
        window.fire(robot, "#exercise-ask");
        assertThat(LessonWindow.has(robot, "#exercise-mark")).isFalse();
        Exercise next =
                new ExerciseMaker(window.model().openedProperty().get().orElseThrow().design())
                        .make(ExerciseKind.SITE, Difficulty.EASY, seed(robot), Progress.NONE)
                        .orElseThrow();
        int wrong = (((Exercise.Truth.OneOf) next.truth()).right() + 1) % 3;
        choose(robot, wrong);
        assertThat(LessonWindow.text(robot, "#exercise-mark")).startsWith("⊖ Not ");
        assertThat(
                        robot.lookup("#exercise-choice-" + (wrong + 1))
                                .queryAs(RadioButton.class)
                                .isSelected())
                .as("what was chosen stays marked")
                .isTrue();
        LearnerRecord.Score score = record().exercises().get(ExerciseKind.SITE);
        assertThat(score).isEqualTo(new LearnerRecord.Score(2, 1));
    }

    private static long seed(FxRobot robot) {
        return Long.parseLong(LessonWindow.text(robot, "#exercise-seed").substring(5));
    }

    private void choose(FxRobot robot, int index) {
        robot.interact(
                () ->
                        robot.lookup("#exercise-choice-" + (index + 1))
                                .queryAs(RadioButton.class)
                                .setSelected(true));
        window.fire(robot, "#exercise-answer");
    }
}
