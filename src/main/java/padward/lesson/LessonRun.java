package padward.lesson;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.lesson.condition.Condition;
import padward.lesson.condition.WindowState;

/**
 * How far a learner is in a lesson. Steps that are done stay done; the one that is being done is
 * looked at anew with every state. Immutable.
 *
 * @param lesson the lesson
 * @param stepsDone how many steps are done
 * @param mistakes how many mistakes were made
 * @param mistake the mistake that the present state shows
 * @param open what is still to come true for the present step, each with what is seen instead
 */
public record LessonRun(
        Lesson lesson,
        int stepsDone,
        int mistakes,
        Optional<LessonStep.Mistake> mistake,
        List<Open> open) {
    /**
     * A condition that does not hold yet.
     *
     * @param expected what must be true
     * @param seen what stands against it now; may be empty
     */
    public record Open(String expected, Optional<String> seen) {
        /** Both as one clause. */
        public String toText() {
            return expected + seen.map(s -> " (now: " + s + ")").orElse("");
        }
    }

    /** Copies the list. */
    public LessonRun {
        open = List.copyOf(open);
    }

    /** A lesson that begins in a state. */
    public static LessonRun begin(Lesson lesson, WindowState state) {
        return new LessonRun(lesson, 0, 0, Optional.empty(), List.of()).at(state);
    }

    /** Whether all steps are done. */
    public boolean isSolved() {
        return stepsDone == lesson.steps().size();
    }

    /** The step that is to be done; empty when all are. */
    public Optional<LessonStep> present() {
        return isSolved() ? Optional.empty() : Optional.of(lesson.steps().get(stepsDone));
    }

    /** The run with what a state shows. */
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
            if (!condition.holds(state)) {
                result.add(new Open(condition.toText(), condition.seen(state)));
            }
        }
        return result;
    }
}
