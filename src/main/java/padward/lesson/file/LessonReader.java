package padward.lesson.file;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Design;
import padward.format.design.DesignReader;
import padward.format.json.FileHeader;
import padward.format.json.JsonIn;
import padward.format.json.Members;
import padward.format.json.Passes;
import padward.format.json.Shape;
import padward.format.source.FileLimits;
import padward.format.source.Source;
import padward.format.source.Text;
import padward.lesson.Lesson;
import padward.lesson.LessonCheck;
import padward.lesson.LessonStep;
import padward.lesson.UserAction;
import padward.lesson.condition.Condition;

/** Reads lessons. */
public final class LessonReader {
    private static final int MOST_LESSONS = 1_000;
    private static final Shape STEP = Shape.of("task!", "done!", "mistakes", "hints!", "solution!");
    private static final Shape MISTAKE = Shape.of("when!", "say!");

    private int number;
    private String name = "";
    private String title = "";
    private String goal = "";
    private String design = "";
    private List<LessonStep> steps = List.of();
    private String why = "";
    private List<String> sources = List.of();

    private LessonReader() {}

    /**
     * Reads a lesson; {@link #check} checks whether it fits its design.
     *
     * @throws BadInput when the file cannot be read or has a fault
     */
    public static Lesson read(Source source, Progress progress) throws BadInput {
        FileHeader.expect(source, FileHeader.LESSON);
        return new LessonReader().run(source, progress);
    }

    /**
     * Reads the design that a lesson is about.
     *
     * @throws BadInput when it cannot be found or read
     */
    public static Design design(Source source, Lesson lesson, Progress progress) throws BadInput {
        Optional<Source> file = source.findBeside(lesson.design());
        if (file.isEmpty()) {
            throw new BadInput(
                    source.label(),
                    "$.design",
                    "a file name relative to the lesson's",
                    Text.quote(lesson.design()));
        }
        return DesignReader.read(file.get(), progress);
    }

    /**
     * Reads a lesson and plays its solution on its design.
     *
     * @throws BadInput when it cannot be read, names something that its design does not have, or
     *     cannot be solved by its solution
     */
    public static Lesson check(Source source, Progress progress) throws BadInput {
        Lesson lesson = read(source, progress);
        Optional<LessonCheck.Fault> fault =
                LessonCheck.find(lesson, design(source, lesson, progress));
        if (fault.isPresent()) {
            throw new BadInput(
                    source.label(),
                    fault.get().place(),
                    fault.get().expected(),
                    fault.get().found());
        }
        return lesson;
    }

    private Lesson run(Source source, Progress progress) throws BadInput {
        new Passes()
                .part("format!", JsonIn::skip)
                .part("number!", in -> number = in.integer(1, MOST_LESSONS))
                .part("name!", in -> name = in.name())
                .part("title!", in -> title = in.name())
                .part("goal!", in -> goal = prose(in))
                .part("design!", in -> design = in.name())
                .part("steps!", in -> steps = readSteps(in))
                .part("why!", in -> why = prose(in))
                .part("sources", in -> sources = in.list(LessonReader::prose))
                .run(source, progress);
        return new Lesson(number, name, title, goal, design, steps, why, sources);
    }

    private static String prose(JsonIn in) throws BadInput {
        String text = in.text(FileLimits.NOTE);
        if (text.isBlank()) {
            throw in.fault("a text", "an empty one");
        }
        return text;
    }

    private static List<LessonStep> readSteps(JsonIn in) throws BadInput {
        List<LessonStep> all = in.list(LessonReader::readStep);
        if (all.isEmpty()) {
            throw in.fault("at least one step", "none");
        }
        return all;
    }

    private static LessonStep readStep(JsonIn in) throws BadInput {
        String task = "";
        List<Condition> done = List.of();
        List<LessonStep.Mistake> mistakes = new ArrayList<>();
        List<String> hints = List.of();
        List<UserAction> solution = List.of();
        Members member = in.object(STEP);
        while (member.next()) {
            switch (member.name()) {
                case "task" -> task = prose(in);
                case "done" -> done = readConditions(in);
                case "mistakes" -> mistakes = in.list(LessonReader::readMistake);
                case "hints" -> hints = in.list(LessonReader::prose);
                default -> solution = in.list(UserActionReader::read);
            }
        }
        return new LessonStep(task, done, mistakes, hints, solution);
    }

    private static LessonStep.Mistake readMistake(JsonIn in) throws BadInput {
        List<Condition> when = List.of();
        String say = "";
        Members member = in.object(MISTAKE);
        while (member.next()) {
            if (member.name().equals("when")) {
                when = readConditions(in);
            } else {
                say = prose(in);
            }
        }
        return new LessonStep.Mistake(when, say);
    }

    /** An empty list of conditions would always be fulfilled. */
    private static List<Condition> readConditions(JsonIn in) throws BadInput {
        List<Condition> all = in.list(ConditionReader::read);
        if (all.isEmpty()) {
            throw in.fault("at least one condition", "none");
        }
        return all;
    }
}
