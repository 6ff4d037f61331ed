package padward.ui.lesson;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import javafx.scene.control.ChoiceBox;
import javafx.scene.control.Slider;
import javafx.stage.Stage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import padward.fabric.delay.Corner;
import padward.lesson.LessonStep;
import padward.lesson.UserAction;
import padward.lesson.exercise.Difficulty;
import padward.lesson.exercise.ExerciseKind;
import padward.lesson.file.Course;
import padward.ui.OpenWindow;
import padward.ui.map.MapView;
import padward.ui.play.PlayKind;

/**
 * Takes the pictures of steps, lessons and exercises: {@code mvn test -Dtest=LessonPicturesTest
 * -Dpictures=docs/pictures}; {@code -Dpicture.dark=true}, {@code -Dpicture.width=…} for a look.
 */
@ExtendWith(ApplicationExtension.class)
@EnabledIfSystemProperty(named = "pictures", matches = ".+")
class LessonPicturesTest {
    /** At which step each lesson's picture is taken. */
    private static final Set<String> SOLVED = Set.of("boxes", "io-register", "trigger");

    private static final String NET = "pump/level/sample[1]";

    private LessonWindow window;

    @Start
    void start(Stage stage) throws Exception {
        window =
                LessonWindow.show(
                        stage,
                        Files.createTempDirectory("learners"),
                        Integer.getInteger("picture.width", 1280),
                        Integer.getInteger("picture.height", 800));
        window.model().look().darkProperty().set(Boolean.getBoolean("picture.dark"));
    }

    @Test
    void takeThem(FxRobot robot) throws Exception {
        steps(robot);
        lessons(robot);
        window.tab(robot, "exercises");
        robot.interact(() -> window.model().open(Path.of("fixtures/small/only.design.json")));
        exercise(robot, ExerciseKind.SITE, Difficulty.EASY, "exercise-site");
        exercise(robot, ExerciseKind.DELAY, Difficulty.MEDIUM, "exercise-delay");
        large(robot);
    }

    /** A search over the workbench example, half done. */
    private void large(FxRobot robot) throws Exception {
        robot.interact(() -> window.model().open(Path.of("fixtures/workbench/design.json.gz")));
        window.tab(robot, "steps");
        window.act(robot, new UserAction.Ask("pump/phase/acc[0]", "J3.1", Corner.SLOW));
        kind(robot, PlayKind.DIJKSTRA);
        Slider place = robot.lookup("#steps-place").queryAs(Slider.class);
        robot.interact(() -> place.setValue(place.getMax() / 2));
        window.fire(robot, "#whole-fabric-button");
        take(robot, "steps-large");
    }

    private void steps(FxRobot robot) throws Exception {
        window.tab(robot, "steps");
        take(robot, "steps-empty");
        window.act(robot, new UserAction.Ask(NET, "J1.4", Corner.SLOW));
        for (int i = 0; i < 12; i++) {
            window.fire(robot, "#steps-next");
        }
        take(robot, "steps-a-star");
        robot.interact(() -> robot.lookup("#map").queryAs(MapView.class).goTo(6.4, 2.8, 200));
        take(robot, "steps-near");
        kind(robot, PlayKind.DIJKSTRA);
        window.fire(robot, "#steps-end");
        take(robot, "steps-dijkstra");
        window.act(robot, new UserAction.Ask(NET, "J1.3", Corner.SLOW));
        kind(robot, PlayKind.A_STAR);
        window.fire(robot, "#steps-occupied");
        take(robot, "steps-occupied");
        kind(robot, PlayKind.LABELS);
        window.fire(robot, "#steps-end");
        take(robot, "steps-labels");
        kind(robot, PlayKind.ROUNDS);
        window.fire(robot, "#steps-example");
        window.fire(robot, "#steps-next");
        take(robot, "steps-rounds");
        window.fire(robot, "#steps-end");
        take(robot, "steps-rounds-end");
        kind(robot, PlayKind.A_STAR);
    }

    private void kind(FxRobot robot, PlayKind kind) {
        robot.interact(
                () -> {
                    @SuppressWarnings("unchecked")
                    ChoiceBox<PlayKind> box = robot.lookup("#steps-kind").queryAs(ChoiceBox.class);
                    box.setValue(kind);
                });
        WaitForAsyncUtils.waitForFxEvents();
    }

    private void lessons(FxRobot robot) throws Exception {
        window.tab(robot, "lessons");
        take(robot, "lessons");
        for (Course.Place place : Course.builtIn().places()) {
            String name = place.lesson().name();
            window.fire(robot, "#lesson-begin-" + place.lesson().number());
            int last = place.lesson().steps().size() - 1;
            for (LessonStep step : place.lesson().steps().subList(0, last)) {
                step.solution().forEach(d -> window.act(robot, d));
            }
            LessonStep step = place.lesson().steps().get(last);
            if (SOLVED.contains(name)) {
                step.solution().forEach(d -> window.act(robot, d));
            } else {
                window.fire(robot, "#lesson-hint");
            }
            take(robot, "lesson-" + name);
            if (name.equals("cautions")) {
                window.act(robot, new UserAction.TryIt());
                window.act(robot, new UserAction.Keep());
                take(robot, "lesson-mistake");
            }
            window.fire(robot, "#lesson-all");
        }
        take(robot, "lessons-some-done");
    }

    private void exercise(FxRobot robot, ExerciseKind kind, Difficulty difficulty, String name)
            throws Exception {
        robot.interact(
                () -> {
                    @SuppressWarnings("unchecked")
                    ChoiceBox<ExerciseKind> kinds =
                            robot.lookup("#exercise-kind").queryAs(ChoiceBox.class);
                    kinds.setValue(kind);
                    @SuppressWarnings("unchecked")
                    ChoiceBox<Difficulty> hard =
                            robot.lookup("#exercise-difficulty").queryAs(ChoiceBox.class);
                    hard.setValue(difficulty);
                });
        window.fire(robot, "#exercise-ask");
        take(robot, name);
    }

    private void take(FxRobot robot, String name) throws Exception {
        OpenWindow.take(robot, window.stage(), name);
    }
}
