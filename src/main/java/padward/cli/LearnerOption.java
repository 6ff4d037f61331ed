package padward.cli;

import java.nio.file.Path;
import padward.base.BadInput;
import padward.format.LearnerFolder;
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
            description =
                    "Folder of the learners' files (usually learners in the window's settings folder, "
                            + "on Linux ~/.config/padward).")
    private Path folder;

    String name() {
        return learner;
    }

    LearnerFolder folder() {
        return folder == null ? LearnerFolder.usual() : LearnerFolder.at(folder);
    }

    LearnerRecord read() throws BadInput {
        return folder().read(learner);
    }
}
