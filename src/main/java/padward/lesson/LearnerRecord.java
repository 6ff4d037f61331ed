package padward.lesson;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import padward.lesson.exercise.ExerciseKind;

/**
 * The progress of one learner. Immutable.
 *
 * @param learner the learner's name
 * @param lessons progress in each lesson that was begun, by the lesson's name
 * @param exercises results of the exercises, by their kind
 */
public record LearnerRecord(
        String learner, Map<String, Lessoned> lessons, Map<ExerciseKind, Score> exercises) {
    /**
     * Progress in one lesson.
     *
     * @param stepsDone most steps done in one run
     * @param steps number of its steps
     * @param mistakes mistakes made, in all runs together
     * @param hints hints taken, in all runs together
     * @param solved when it was first solved, ISO 8601; empty if not yet
     */
    public record Lessoned(
            int stepsDone, int steps, int mistakes, int hints, Optional<String> solved) {
        /** Whether all steps have been done. */
        public boolean isSolved() {
            return solved.isPresent();
        }
    }

    /**
     * Results of the exercises of one kind.
     *
     * @param answered number of answers
     * @param right number of right answers
     */
    public record Score(int answered, int right) {}

    /** Copies the maps. */
    public LearnerRecord {
        lessons = Collections.unmodifiableMap(new LinkedHashMap<>(lessons));
        exercises = Collections.unmodifiableMap(new LinkedHashMap<>(exercises));
    }

    /** A learner without any progress. */
    public static LearnerRecord of(String learner) {
        return new LearnerRecord(learner, Map.of(), Map.of());
    }

    /** With the progress of a run added, and its new mistakes and hints. */
    public LearnerRecord with(LessonRun run, int newMistakes, int newHints, String now) {
        String name = run.lesson().name();
        Lessoned before = lessons.getOrDefault(name, new Lessoned(0, 0, 0, 0, Optional.empty()));
        Optional<String> solved =
                before.solved().isPresent() || !run.isSolved() ? before.solved() : Optional.of(now);
        Map<String, Lessoned> next = new LinkedHashMap<>(lessons);
        next.put(
                name,
                new Lessoned(
                        Math.max(before.stepsDone(), run.stepsDone()),
                        run.lesson().steps().size(),
                        before.mistakes() + newMistakes,
                        before.hints() + newHints,
                        solved));
        return new LearnerRecord(learner, next, exercises);
    }

    /** With one more answered exercise. */
    public LearnerRecord with(ExerciseKind kind, boolean right) {
        Score before = exercises.getOrDefault(kind, new Score(0, 0));
        Map<ExerciseKind, Score> next = new LinkedHashMap<>(exercises);
        next.put(kind, new Score(before.answered() + 1, before.right() + (right ? 1 : 0)));
        return new LearnerRecord(learner, lessons, next);
    }

    /** Without the progress in one lesson. */
    public LearnerRecord without(String lesson) {
        Map<String, Lessoned> next = new LinkedHashMap<>(lessons);
        next.remove(lesson);
        return new LearnerRecord(learner, next, exercises);
    }
}
