package padward.lesson.file;

import java.util.Optional;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Design;
import padward.format.design.DesignReader;
import padward.format.json.FileHeader;
import padward.format.source.Source;
import padward.format.source.Text;
import padward.lesson.Lesson;
import padward.lesson.LessonCheck;

/** Reads lessons. */
public final class LessonReader {
    private LessonReader() {}

    /**
     * Reads a lesson; {@link #check} checks whether it fits its design.
     *
     * @throws BadInput when the file cannot be read or has a fault
     */
    public static Lesson read(Source source, Progress progress) throws BadInput {
        FileHeader.expect(source, FileHeader.LESSON);
        return LessonForm.lesson().read(source, progress);
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

    /** The text of the JSON Schema of lessons. */
    public static String schema() {
        return LessonForm.lesson().schema().toFile("Padward lesson");
    }
}
