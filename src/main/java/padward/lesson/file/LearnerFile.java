package padward.lesson.file;

import java.nio.file.Path;
import padward.base.BadInput;
import padward.base.Progress;
import padward.format.json.FileHeader;
import padward.format.source.Source;
import padward.lesson.LearnerRecord;

/** Reads and writes the progress of one learner. */
public final class LearnerFile {
    private LearnerFile() {}

    /**
     * Reads one file.
     *
     * @throws BadInput when it has a fault
     */
    public static LearnerRecord read(Source source) throws BadInput {
        FileHeader.expect(source, FileHeader.LEARNER);
        return LearnerFileForm.learner().read(source, Progress.NONE);
    }

    /** Writes one file, as a whole or not at all. */
    public static void write(LearnerRecord learner, Path file) throws BadInput {
        LearnerFileForm.learner().write(file, learner);
    }

    /** The text of the JSON Schema of these files. */
    public static String schema() {
        return LearnerFileForm.learner().schema().toFile("Padward learner");
    }
}
