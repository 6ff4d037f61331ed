package padward.ui.lesson;

import java.util.List;
import java.util.Optional;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import padward.lesson.Lesson;
import padward.lesson.LessonRun;
import padward.lesson.LessonStep;
import padward.lesson.UserAction;
import padward.lesson.file.Course;
import padward.ui.control.Controls;
import padward.ui.control.LinkedText;

/** The present lesson: its tasks, what is still missing, hints; at the end, why it matters. */
final class LessonPane extends VBox {
    private final LessonsModel lessons;

    LessonPane(LessonsModel lessons) {
        super(8);
        this.lessons = lessons;
        setId("lesson");
    }

    /** Forgets a lesson that was left: nothing hidden is found by its name. */
    void clear() {
        getChildren().clear();
    }

    void show(LessonsModel.Running running) {
        Lesson lesson = running.place().lesson();
        LessonRun run = running.run();
        getChildren().setAll(head(lesson));
        if (!lessons.atHandProperty().get()) {
            showAway();
            return;
        }
        if (run.isSolved()) {
            showWhy(lesson);
        } else {
            showTask(running, run.present().orElseThrow());
        }
        // The task is on top, where it is visible without scrolling.
        getChildren().add(Controls.text("Goal: " + lesson.goal(), "faint"));
        List<LessonStep> steps = lesson.steps();
        for (int i = 0; i < run.stepsDone(); i++) {
            getChildren().add(Controls.text("✓ " + steps.get(i).task(), "faint", "small"));
        }
    }

    private Node head(Lesson lesson) {
        Label title = Controls.text(lessons.numbered(lesson) + ": " + lesson.title(), "side-title");
        title.setId("lesson-title");
        Region spring = new Region();
        HBox.setHgrow(spring, Priority.ALWAYS);
        HBox.setHgrow(title, Priority.SOMETIMES);
        HBox head =
                new HBox(
                        8,
                        title,
                        spring,
                        Controls.button(
                                "lesson-all",
                                "All lessons",
                                "Leaves this lesson; your progress is saved",
                                lessons::leave));
        head.setAlignment(Pos.CENTER_LEFT);
        return head;
    }

    /** Another design has been opened in the meantime. */
    private void showAway() {
        getChildren()
                .addAll(
                        Controls.text(
                                "The open design is not the one of this lesson. Begin the lesson"
                                        + " again, or leave it."),
                        buttons(false, false));
    }

    private void showTask(LessonsModel.Running running, LessonStep step) {
        LessonRun run = running.run();
        LinkedText task =
                linked(
                        "▸ Task "
                                + (run.stepsDone() + 1)
                                + " of "
                                + run.lesson().steps().size()
                                + ": "
                                + step.task(),
                        "lesson-task");
        task.setId("lesson-task");
        getChildren().add(task);
        run.mistake().ifPresent(m -> getChildren().add(mistake(m)));
        String seen =
                String.join(
                        "; ",
                        run.open().stream().flatMap(o -> o.seen().stream()).distinct().toList());
        if (!seen.isEmpty() && run.mistake().isEmpty()) {
            LinkedText soFar = linked("Not done yet. So far, " + seen + ".", "faint", "small");
            soFar.setId("lesson-so-far");
            getChildren().add(soFar);
        }
        boolean more = running.hints() < step.hints().size();
        getChildren().add(buttons(more, !running.how()));
        for (int i = 0; i < running.hints(); i++) {
            LinkedText hint = linked("Hint: " + step.hints().get(i), "lesson-hint");
            hint.setId("lesson-hint-" + (i + 1));
            getChildren().add(hint);
        }
        if (running.how()) {
            LinkedText how =
                    linked(
                            "How: "
                                    + String.join(
                                            "; ",
                                            step.solution().stream()
                                                    .map(UserAction::toText)
                                                    .toList())
                                    + ".",
                            "lesson-hint");
            how.setId("lesson-how");
            getChildren().add(how);
        }
    }

    /** A text whose names of nets, pads and other things lead to them. */
    private LinkedText linked(String text, String... styles) {
        return new LinkedText(lessons.window(), text, styles);
    }

    private Node mistake(LessonStep.Mistake mistake) {
        LinkedText text = linked("⊖ " + mistake.say(), "lesson-mistake");
        text.setId("lesson-mistake");
        text.setMaxWidth(Double.MAX_VALUE);
        return text;
    }

    private Node buttons(boolean hints, boolean how) {
        FlowPane row = new FlowPane(8, 6);
        Button hint =
                Controls.button(
                        "lesson-hint",
                        "Hint",
                        "Shows a hint; press again for a clearer one",
                        lessons::hint);
        hint.setDisable(!hints);
        Button show =
                Controls.button(
                        "lesson-show",
                        "Show how",
                        "Shows how to do this task; you still do it yourself",
                        lessons::showHow);
        show.setDisable(!how);
        row.getChildren()
                .addAll(
                        hint,
                        show,
                        Controls.button(
                                "lesson-again",
                                "Begin again",
                                "Opens the lesson's design again and starts with the first task",
                                lessons::beginAgain));
        return row;
    }

    private void showWhy(Lesson lesson) {
        Label solved = Controls.text("✓ Solved.", "lesson-solved");
        solved.setId("lesson-solved");
        LinkedText why = linked(lesson.why());
        why.setId("lesson-why");
        getChildren().addAll(solved, why);
        lesson.sources().forEach(s -> getChildren().add(Controls.text(s, "faint", "small")));
        Optional<Course.Place> next = lessons.next();
        FlowPane row = new FlowPane(8, 6);
        next.ifPresent(
                n ->
                        row.getChildren()
                                .add(
                                        Controls.button(
                                                "lesson-next",
                                                "Next: " + n.lesson().title(),
                                                "Begins lesson " + n.lesson().number(),
                                                () -> lessons.begin(n))));
        row.getChildren()
                .add(
                        Controls.button(
                                "lesson-again",
                                "Begin again",
                                "Opens the lesson's design again and starts with the first task",
                                lessons::beginAgain));
        getChildren().add(row);
    }
}
