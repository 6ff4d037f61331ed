package padward.lesson;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import padward.design.Design;
import padward.lesson.condition.Condition;

/**
 * Whether a lesson fits its design: all names mean something, no step is done before the learner
 * begins it, and the solution that it gives solves it.
 */
public final class LessonCheck {
    /**
     * A fault.
     *
     * @param place JSON path in the lesson's file
     * @param expected what should have stood there
     * @param found what stood there
     */
    public record Fault(String place, String expected, String found) {}

    private LessonCheck() {}

    /** The first fault; empty when the lesson is sound. Plays the whole solution. */
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
                                "the name of a " + missing.sort() + " of the design",
                                "\"" + missing.name() + "\""));
            }
        }
    }

    private static Optional<Fault> play(Lesson lesson, Design design) {
        ActionPlayer bench = new ActionPlayer(design);
        LessonRun run = LessonRun.begin(lesson, bench.state());
        for (int i = 0; i < lesson.steps().size(); i++) {
            String place = "$.steps[" + i + "]";
            LessonStep step = lesson.steps().get(i);
            if (run.stepsDone() > i) {
                return Optional.of(
                        new Fault(
                                place + ".done",
                                "something that the step before leaves to be done",
                                "what is done already when the step begins"));
            }
            for (int d = 0; d < step.solution().size(); d++) {
                Optional<String> fault = bench.act(step.solution().get(d));
                if (fault.isPresent()) {
                    return Optional.of(
                            new Fault(
                                    place + ".solution[" + d + "]",
                                    "something that can be done there",
                                    step.solution().get(d).toText() + ": " + fault.get()));
                }
                run = run.at(bench.state());
            }
            if (run.mistake().isPresent() || run.stepsDone() <= i) {
                return Optional.of(
                        new Fault(place + ".solution", "what does the task", notDone(run)));
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

    /** All deeds of a lesson's solution, in order. */
    public static Stream<UserAction> deeds(Lesson lesson) {
        return lesson.steps().stream().flatMap(s -> s.solution().stream());
    }
}
