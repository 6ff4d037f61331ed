package padward.lesson;

import java.util.List;
import padward.lesson.condition.Condition;
import padward.lesson.condition.WindowState;

/**
 * One task of a lesson.
 *
 * @param task what the learner is to do, in plain words
 * @param done what must be true for the task to be done; all of it
 * @param mistakes states that show a mistake, each with what to say
 * @param hints help, from gentle to plain
 * @param solution what does it: proof that it can be done, and shown when asked for
 */
public record LessonStep(
        String task,
        List<Condition> done,
        List<Mistake> mistakes,
        List<String> hints,
        List<UserAction> solution) {
    /** Copies the lists. */
    public LessonStep {
        done = List.copyOf(done);
        mistakes = List.copyOf(mistakes);
        hints = List.copyOf(hints);
        solution = List.copyOf(solution);
    }

    /**
     * A state that shows a mistake.
     *
     * @param when what is then true; all of it
     * @param say what the learner is told
     */
    public record Mistake(List<Condition> when, String say) {
        /** Copies the conditions. */
        public Mistake {
            when = List.copyOf(when);
        }

        /** Whether it has been made. */
        public boolean isMade(WindowState state) {
            return when.stream().allMatch(c -> c.holds(state));
        }
    }

    /** Whether the task is done. */
    public boolean isDone(WindowState state) {
        return done.stream().allMatch(c -> c.holds(state));
    }
}
