package padward.lesson;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.lesson.condition.Condition;
import padward.lesson.condition.WindowState;

/**
 * How far a learner has come in a lesson. A step that is done stays done; the present step is
 * checked again in every state. Immutable.
 *
 * @param lesson the lesson
 * @param stepsDone number of steps done
 * @param mistakes number of mistakes made
 * @param mistake the mistake in the present state
 * @param open the conditions that the present step still needs, each with what is true instead
 */
public record LessonRun(
        Lesson lesson,
        int stepsDone,
        int mistakes,
        Optional<LessonStep.Mistake> mistake,
        List<Open> open) {
    /**
     * A condition that is not fulfilled yet.
     *
     * @param expected what has to be true
     * @param seen what is true instead; may be empty
     */
    public record Open(String expected, Optional<String> seen) {
        /** Both as one clause. */
        public String toText() {
            return expected + seen.map(s -> " (so far: " + s + ")").orElse("");
        }
    }

    /** Copies the list. */
    public LessonRun {
        open = List.copyOf(open);
    }

    /** Begins a lesson in a state. */
    public static LessonRun begin(Lesson lesson, WindowState state) {
        return new LessonRun(lesson, 0, 0, Optional.empty(), List.of()).at(state);
    }

    /** Whether all steps are done. */
    public boolean isSolved() {
        return stepsDone == lesson.steps().size();
    }

    /** The step to do next; empty when all are done. */
    public Optional<LessonStep> present() {
        return isSolved() ? Optional.empty() : Optional.of(lesson.steps().get(stepsDone));
    }

    /** The run after another state has been reached. */
    public LessonRun at(WindowState state) {
        if (isSolved()) {
            return this;
        }
        LessonStep step = lesson.steps().get(stepsDone);
        Optional<LessonStep.Mistake> made =
                step.mistakes().stream().filter(m -> m.isMade(state)).findFirst();
        int count = made.isPresent() && !made.equals(mistake) ? mistakes + 1 : mistakes;
        if (made.isEmpty() && step.isDone(state)) {
            return new LessonRun(lesson, stepsDone + 1, count, Optional.empty(), List.of())
                    .at(state);
        }
        return new LessonRun(lesson, stepsDone, count, made, open(step, state));
    }

    private static List<Open> open(LessonStep step, WindowState state) {
        List<Open> result = new ArrayList<>();
        for (Condition condition : step.done()) {
            if (!condition.isFulfilled(state)) {
                result.add(new Open(condition.toText(), condition.seen(state)));
            }
        }
        return result;
    }
}
