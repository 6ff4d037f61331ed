package padward.cli;

import java.nio.file.Path;
import padward.base.BadInput;
import padward.format.LearnerFile;
import padward.lesson.LearnerRecord;
import picocli.CommandLine.Option;

/** The options that say whose lessons and exercises are meant. */
final class LearnerOption {
    @Option(
            names = "--learner",
            paramLabel = "NAME",
            defaultValue = "${sys:user.name}",
            description = "Whose progress is meant (you: ${DEFAULT-VALUE}).")
    private String learner;

    @Option(
            names = "--records",
            paramLabel = "DIR",
            description = "Folder of the learners' files (.padward/learners in the home folder).")
    private Path folder;

    String name() {
        return learner;
    }

    Path folder() {
        return folder == null ? LearnerFile.usualFolder() : folder;
    }

    LearnerRecord read() throws BadInput {
        return LearnerFile.read(folder(), learner);
    }
}
