package padward.lesson;

import java.util.List;
import padward.lesson.condition.Condition;
import padward.lesson.condition.WindowState;

/**
 * One task of a lesson.
 *
 * @param task what the learner has to do, in plain words
 * @param done conditions that must all be fulfilled for the task to be done
 * @param mistakes mistakes that are recognised, each with what to say
 * @param hints hints, from vague to clear
 * @param solution actions that do the task: played to prove that it can be done, and shown on
 *     request
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
     * A mistake, recognised by the state it leads to.
     *
     * @param when conditions that must all be fulfilled
     * @param say what the learner reads then
     */
    public record Mistake(List<Condition> when, String say) {
        /** Copies the conditions. */
        public Mistake {
            when = List.copyOf(when);
        }

        /** Whether it has been made. */
        public boolean isMade(WindowState state) {
            return when.stream().allMatch(c -> c.isFulfilled(state));
        }
    }

    /** Whether the task is done. */
    public boolean isDone(WindowState state) {
        return done.stream().allMatch(c -> c.isFulfilled(state));
    }
}
