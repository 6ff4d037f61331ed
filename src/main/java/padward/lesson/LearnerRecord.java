package padward.lesson;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import padward.lesson.exercise.ExerciseKind;

/**
 * What one learner has done. Immutable.
 *
 * @param learner the learner's name
 * @param lessons how each lesson that was begun went, by the lesson's name
 * @param exercises how exercises went, by their kind
 */
public record LearnerRecord(
        String learner, Map<String, Lessoned> lessons, Map<ExerciseKind, Score> exercises) {
    /**
     * How a lesson went.
     *
     * @param stepsDone most steps that were done in one go
     * @param steps how many it has
     * @param mistakes how many mistakes were made, in all goes
     * @param hints how many hints were taken, in all goes
     * @param solved when it was solved first, ISO 8601; empty when it was not yet
     */
    public record Lessoned(
            int stepsDone, int steps, int mistakes, int hints, Optional<String> solved) {
        /** Whether all steps have been done. */
        public boolean isSolved() {
            return solved.isPresent();
        }
    }

    /**
     * How exercises of a kind went.
     *
     * @param answered how many were answered
     * @param right how many of these rightly
     */
    public record Score(int answered, int right) {}

    /** Copies the maps. */
    public LearnerRecord {
        lessons = Collections.unmodifiableMap(new LinkedHashMap<>(lessons));
        exercises = Collections.unmodifiableMap(new LinkedHashMap<>(exercises));
    }

    /** A learner who has done nothing yet. */
    public static LearnerRecord of(String learner) {
        return new LearnerRecord(learner, Map.of(), Map.of());
    }

    /** With what a run of a lesson has come to, and the mistakes and hints that are new. */
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

    /** Without what is remembered of one lesson. */
    public LearnerRecord without(String lesson) {
        Map<String, Lessoned> next = new LinkedHashMap<>(lessons);
        next.remove(lesson);
        return new LearnerRecord(learner, next, exercises);
    }
}
