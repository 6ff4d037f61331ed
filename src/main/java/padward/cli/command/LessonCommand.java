package padward.cli.command;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import padward.base.BadInput;
import padward.cli.option.LearnerOption;
import padward.cli.option.Outputs;
import padward.cli.output.ExitStatus;
import padward.cli.output.TextTable;
import padward.format.source.Nearest;
import padward.lesson.LearnerRecord;
import padward.lesson.Lesson;
import padward.lesson.LessonText;
import padward.lesson.file.Course;
import padward.lesson.file.LearnerSummary;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code lesson}: lists lessons, shows one, reports or deletes a learner's progress. */
@Command(
        name = "lesson",
        mixinStandardHelpOptions = true,
        description =
                "Lists the lessons with a learner's progress, or shows one to read. Lessons "
                        + "are done in the window, in its tab Lessons.",
        footer = {
            "",
            "Examples:",
            "  padward lesson",
            "  padward lesson io-register",
            "  padward lesson --learner anna --summary -o anna.html",
            "  padward lesson --learner anna --reset"
        })
public final class LessonCommand implements Callable<Integer> {
    @Spec private CommandSpec spec;
    @Mixin private LearnerOption learner;

    @Parameters(
            arity = "0..1",
            paramLabel = "LESSON",
            description = "Name or number of the lesson to show.")
    private String name;

    @Option(
            names = "--from",
            paramLabel = "DIR",
            description = "A folder with your own lessons, instead of the built-in ones.")
    private Path folder;

    @Option(names = "--summary", description = "Prints the learner's results.")
    private boolean summary;

    @Option(
            names = {"-o", "--output"},
            paramLabel = "FILE",
            description =
                    "With --summary: writes the results to this file, as a printable page if its "
                            + "name ends in .html, otherwise as plain text.")
    private Path output;

    @Option(
            names = "--reset",
            description =
                    "Deletes the learner's progress; only that of one lesson if one is named.")
    private boolean reset;

    @Override
    public Integer call() throws BadInput {
        Course course = folder == null ? Course.builtIn() : Course.in(folder);
        List<Lesson> lessons = course.lessons();
        PrintWriter out = spec.commandLine().getOut();
        if (output != null && !summary) {
            throw new BadInput("-o", "", "--summary with it", "none");
        }
        if (reset) {
            reset(course, out);
        } else if (summary) {
            printSummary(lessons, out);
        } else if (name != null) {
            LessonText.lesson(find(course)).forEach(out::println);
        } else {
            list(lessons, out);
        }
        out.flush();
        return ExitStatus.DONE;
    }

    private Lesson find(Course course) throws BadInput {
        return course.find(name)
                .map(Course.Place::lesson)
                .orElseThrow(
                        () ->
                                new BadInput(
                                        "LESSON",
                                        "",
                                        "the name or number of a lesson",
                                        Nearest.describe(
                                                name,
                                                course.places().stream()
                                                        .map(p -> p.lesson().name()))));
    }

    private void reset(Course course, PrintWriter out) throws BadInput {
        String lesson = name == null ? "" : find(course).name();
        learner.folder()
                .change(
                        learner.name(),
                        old ->
                                lesson.isEmpty()
                                        ? LearnerRecord.of(old.learner())
                                        : old.without(lesson));
        out.println(
                lesson.isEmpty()
                        ? "The progress of learner " + learner.name() + " was deleted."
                        : "The progress in lesson " + lesson + " was deleted.");
    }

    private void printSummary(List<Lesson> lessons, PrintWriter out) throws BadInput {
        LearnerRecord record = learner.read();
        if (output == null) {
            LessonText.summary(record, lessons).forEach(out::println);
            return;
        }
        Outputs.check(output, learner.folder().file(learner.name()));
        LearnerSummary.write(output, record, lessons);
        out.println("Written: " + output);
    }

    private void list(List<Lesson> lessons, PrintWriter out) throws BadInput {
        LearnerRecord record = learner.read();
        TextTable table = new TextTable("", "lesson", "title", record.learner());
        for (Lesson lesson : lessons) {
            table.row(
                    String.valueOf(lesson.number()),
                    lesson.name(),
                    lesson.title(),
                    LessonText.progress(record, lesson));
        }
        table.print(out);
        out.println();
        out.println("Do them in the window (padward window), in its tab Lessons.");
    }
}
