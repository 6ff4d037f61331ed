package padward.lesson;

import java.util.ArrayList;
import java.util.List;
import padward.base.Counts;
import padward.lesson.exercise.Exercise;
import padward.lesson.exercise.ExerciseKind;

/** Lessons, exercises and learners' progress as plain lines. */
public final class LessonText {
    private LessonText() {}

    /** A lesson for reading: goal, tasks, why, sources; no hints and no solution. */
    public static List<String> lesson(Lesson lesson) {
        List<String> lines = new ArrayList<>();
        lines.add("Lesson " + lesson.number() + ": " + lesson.title());
        lines.add("Goal: " + lesson.goal());
        for (int i = 0; i < lesson.steps().size(); i++) {
            lines.add((i + 1) + ". " + lesson.steps().get(i).task());
        }
        lines.add("Why: " + lesson.why());
        lesson.sources().forEach(s -> lines.add("Source: " + s));
        return lines;
    }

    /** An exercise for reading, without its answer. */
    public static List<String> exercise(Exercise exercise) {
        List<String> lines = new ArrayList<>();
        lines.add(exercise.text());
        exercise.facts().forEach(f -> lines.add("  " + f));
        if (exercise.truth() instanceof Exercise.Truth.OneOf oneOf) {
            for (int i = 0; i < oneOf.choices().size(); i++) {
                String remark = oneOf.remarks().get(i);
                lines.add(
                        "  "
                                + (i + 1)
                                + ") "
                                + oneOf.choices().get(i)
                                + (remark.isEmpty() ? "" : ": " + remark));
            }
        }
        return lines;
    }

    /** How far a learner has come in a lesson, in a few words. */
    public static String progress(LearnerRecord learner, Lesson lesson) {
        LearnerRecord.Lessoned done = learner.lessons().get(lesson.name());
        if (done == null) {
            return "not started";
        }
        String count = done.stepsDone() + " of " + lesson.steps().size() + " steps";
        String state = done.isSolved() ? "solved " + date(done.solved().orElse("")) : count;
        return state
                + ", "
                + Counts.text(done.mistakes(), "mistake")
                + ", "
                + Counts.text(done.hints(), "hint");
    }

    /** The day of an ISO 8601 time stamp. */
    private static String date(String moment) {
        return moment.length() > 10 ? moment.substring(0, 10) : moment;
    }

    /** A learner's results in the exercises of one kind, in a few words. */
    public static String score(LearnerRecord learner, ExerciseKind kind) {
        LearnerRecord.Score score = learner.exercises().get(kind);
        return score == null
                ? "none answered"
                : score.right() + " of " + score.answered() + " right";
    }

    /** All progress of a learner. */
    public static List<String> summary(LearnerRecord learner, List<Lesson> lessons) {
        List<String> lines = new ArrayList<>();
        lines.add("Learner: " + learner.learner());
        for (Lesson lesson : lessons) {
            lines.add(lesson.number() + ". " + lesson.title() + ": " + progress(learner, lesson));
        }
        for (ExerciseKind kind : ExerciseKind.values()) {
            lines.add(kind.title() + " " + score(learner, kind));
        }
        return lines;
    }
}
