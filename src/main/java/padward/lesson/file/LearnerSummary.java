package padward.lesson.file;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import padward.base.BadInput;
import padward.base.WholeFile;
import padward.lesson.LearnerPage;
import padward.lesson.LearnerRecord;
import padward.lesson.Lesson;
import padward.lesson.LessonText;

/** Writes a learner's progress for people to read. */
public final class LearnerSummary {
    private LearnerSummary() {}

    /**
     * Writes a page to print when the file's name ends in {@code .html}, else plain text;
     * completely or not at all.
     *
     * @throws BadInput when the file cannot be written
     */
    public static void write(Path file, LearnerRecord record, List<Lesson> lessons)
            throws BadInput {
        boolean page = file.toString().toLowerCase(Locale.ROOT).endsWith(".html");
        WholeFile.writeText(
                file,
                page
                        ? LearnerPage.of(record, lessons)
                        : String.join("\n", LessonText.summary(record, lessons)) + "\n");
    }
}
