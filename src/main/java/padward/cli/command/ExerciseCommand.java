package padward.cli.command;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.Callable;
import padward.base.BadInput;
import padward.cli.manners.ConsoleProgress;
import padward.cli.option.LearnerOption;
import padward.cli.output.ExitStatus;
import padward.design.Design;
import padward.format.design.Demo;
import padward.format.design.DesignReader;
import padward.lesson.LessonText;
import padward.lesson.exercise.Difficulty;
import padward.lesson.exercise.Exercise;
import padward.lesson.exercise.ExerciseKind;
import padward.lesson.exercise.ExerciseMaker;
import padward.synth.DesignMaker;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code exercise}: asks a random question, or marks an answer to one. */
@Command(
        name = "exercise",
        mixinStandardHelpOptions = true,
        description =
                "Asks a random question about a design or, with --answer, marks an answer to "
                        + "it. The same seed asks the same question. Without --design, easy questions "
                        + "are about the built-in demo, the others about an invented design.",
        footer = {
            "",
            "Exit status: 0 right (or only asked), 1 wrong, 2 bad input.",
            "",
            "Example:",
            "  padward exercise --kind delay --difficulty medium --seed 42",
            "  padward exercise --kind delay --difficulty medium --seed 42 --answer 4.1"
        })
public final class ExerciseCommand implements Callable<Integer> {
    private static final int MEDIUM_WIRES = 5_000;
    private static final int HARD_WIRES = 20_000;
    private static final double USED = 0.6;
    private static final int MOST = 200;

    @Spec private CommandSpec spec;
    @Mixin private LearnerOption learner;

    @Option(
            names = {"-d", "--design"},
            paramLabel = "FILE",
            description = "The design to ask about.")
    private Path file;

    @Option(
            names = "--kind",
            paramLabel = "KIND",
            defaultValue = "site",
            description =
                    "What is asked: site (which site must be freed?), pad (which pad costs the "
                            + "least?), delay (how long is it?) (${DEFAULT-VALUE}).")
    private ExerciseKind kind;

    @Option(
            names = "--difficulty",
            paramLabel = "D",
            defaultValue = "easy",
            description = "easy, medium or hard (${DEFAULT-VALUE}).")
    private Difficulty difficulty;

    @Option(names = "--seed", paramLabel = "N", description = "The question's seed (a random one).")
    private Long seed;

    @Option(
            names = "--count",
            defaultValue = "1",
            description = "Number of questions; each takes the next seed (${DEFAULT-VALUE}).")
    private int count;

    @Option(
            names = "--answer",
            paramLabel = "A",
            description = "Your answer: the number or name of a choice, or a delay in ns.")
    private String answer;

    @Option(names = "--key", description = "Prints the right answers with an explanation.")
    private boolean key;

    @Override
    public Integer call() throws BadInput {
        if (count < 1 || count > MOST) {
            throw new BadInput("--count", "", "a number from 1 to " + MOST, "" + count);
        }
        if (answer != null && (seed == null || count != 1)) {
            throw new BadInput(
                    "--answer", "", "the --seed of one question with it", count + " questions");
        }
        long first = seed == null ? new Random().nextInt(1_000_000) : seed;
        PrintWriter out = spec.commandLine().getOut();
        int status = ExitStatus.DONE;
        Optional<ExerciseMaker> maker = Optional.empty();
        for (long at = first; at < first + count; at++) {
            // An invented design has the question's own seed, so that each question can be repeated
            // alone.
            if (maker.isEmpty() || isInvented()) {
                maker = Optional.of(new ExerciseMaker(design(at)));
            }
            Optional<Exercise> made =
                    maker.get().make(kind, difficulty, at, ConsoleProgress.of(spec));
            if (made.isEmpty()) {
                throw new BadInput(
                        file == null ? "--seed" : file.toString(),
                        "",
                        "a design that allows this kind of question",
                        "no suitable net and pad");
            }
            status =
                    Math.max(status, answer == null ? ask(made.get(), out) : mark(made.get(), out));
        }
        out.flush();
        return status;
    }

    private boolean isInvented() {
        return file == null && difficulty != Difficulty.EASY;
    }

    private Design design(long at) throws BadInput {
        if (file != null) {
            return DesignReader.read(file, ConsoleProgress.of(spec));
        }
        return switch (difficulty) {
            case EASY -> Demo.open();
            case MEDIUM ->
                    DesignMaker.make(MEDIUM_WIRES, at, USED, ConsoleProgress.of(spec)).design();
            case HARD -> DesignMaker.make(HARD_WIRES, at, USED, ConsoleProgress.of(spec)).design();
        };
    }

    private int ask(Exercise exercise, PrintWriter out) {
        out.println(kind.label() + ", " + difficulty.label() + ", seed " + exercise.seed() + ":");
        LessonText.exercise(exercise).forEach(out::println);
        if (key) {
            out.println("  Answer: " + truth(exercise) + ". " + exercise.explanation());
        } else {
            out.println(
                    "Answer with: padward exercise"
                            + (file == null ? "" : " --design " + file)
                            + " --kind "
                            + kind.label()
                            + " --difficulty "
                            + difficulty.label()
                            + " --seed "
                            + exercise.seed()
                            + " --answer …");
        }
        out.println();
        return ExitStatus.DONE;
    }

    private static String truth(Exercise exercise) {
        if (exercise.truth() instanceof Exercise.Truth.OneOf oneOf) {
            return oneOf.choices().get(oneOf.right());
        }
        int ps = ((Exercise.Truth.About) exercise.truth()).ps();
        return String.format(Locale.ROOT, "%.3f ns", ps / 1000.0);
    }

    private int mark(Exercise exercise, PrintWriter out) throws BadInput {
        Exercise.Mark mark = exercise.mark(answer, "--answer");
        learner.folder().change(learner.name(), old -> old.with(kind, mark.right()));
        out.println(mark.text());
        return mark.right() ? ExitStatus.DONE : ExitStatus.NOT_OPEN;
    }
}
