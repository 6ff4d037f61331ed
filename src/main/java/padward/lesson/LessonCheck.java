package padward.lesson;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import padward.design.Design;
import padward.lesson.condition.Condition;

/**
 * Checks a lesson against its design: every name exists in the design, no step is done before the
 * learner begins it, and the solution in the file solves it.
 */
public final class LessonCheck {
    /**
     * A fault of a lesson.
     *
     * @param place JSON path in the lesson's file
     * @param expected what was expected there
     * @param found what was found there
     */
    public record Fault(String place, String expected, String found) {}

    private LessonCheck() {}

    /** Finds the first fault; empty if there is none. Plays the whole solution. */
    public static Optional<Fault> find(Lesson lesson, Design design) {
        for (int i = 0; i < lesson.steps().size(); i++) {
            Optional<Fault> fault = names(lesson.steps().get(i), "$.steps[" + i + "]", design);
            if (fault.isPresent()) {
                return fault;
            }
        }
        return play(lesson, design);
    }

    private static Optional<Fault> names(LessonStep step, String place, Design design) {
        List<Fault> faults = new ArrayList<>();
        note(step.done(), place + ".done", design, faults);
        for (int m = 0; m < step.mistakes().size(); m++) {
            note(
                    step.mistakes().get(m).when(),
                    place + ".mistakes[" + m + "].when",
                    design,
                    faults);
        }
        return faults.stream().findFirst();
    }

    private static void note(
            List<Condition> conditions, String place, Design design, List<Fault> faults) {
        for (int c = 0; c < conditions.size(); c++) {
            for (Condition.Missing missing : conditions.get(c).missing(design)) {
                faults.add(
                        new Fault(
                                place + "[" + c + "]",
                                "the name of a " + missing.kind() + " of the design",
                                "\"" + missing.name() + "\""));
            }
        }
    }

    private static Optional<Fault> play(Lesson lesson, Design design) {
        SolutionPlayer player = new SolutionPlayer(design);
        LessonRun run = LessonRun.begin(lesson, player.state());
        for (int i = 0; i < lesson.steps().size(); i++) {
            String place = "$.steps[" + i + "]";
            LessonStep step = lesson.steps().get(i);
            if (run.stepsDone() > i) {
                return Optional.of(
                        new Fault(
                                place + ".done",
                                "a task that is not yet done when the step begins",
                                "one that is already done"));
            }
            for (int d = 0; d < step.solution().size(); d++) {
                Optional<String> fault = player.act(step.solution().get(d));
                if (fault.isPresent()) {
                    return Optional.of(
                            new Fault(
                                    place + ".solution[" + d + "]",
                                    "an action that is possible at that point",
                                    step.solution().get(d).toText() + ": " + fault.get()));
                }
                run = run.at(player.state());
            }
            if (run.mistake().isPresent() || run.stepsDone() <= i) {
                return Optional.of(
                        new Fault(place + ".solution", "actions that do the task", notDone(run)));
            }
        }
        return Optional.empty();
    }

    private static String notDone(LessonRun run) {
        return run.mistake()
                .map(m -> "the mistake “" + m.say() + "”")
                .orElseGet(
                        () ->
                                "still open: "
                                        + String.join(
                                                "; ",
                                                run.open().stream()
                                                        .map(LessonRun.Open::toText)
                                                        .toList()));
    }

    /** All actions of a lesson's solution, in order. */
    public static Stream<UserAction> actions(Lesson lesson) {
        return lesson.steps().stream().flatMap(s -> s.solution().stream());
    }
}
