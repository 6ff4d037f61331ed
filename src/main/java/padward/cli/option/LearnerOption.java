package padward.cli.option;

import java.nio.file.Path;
import padward.base.BadInput;
import padward.lesson.LearnerRecord;
import padward.lesson.file.LearnerFolder;
import picocli.CommandLine.Option;

/** The options that name the learner. */
public final class LearnerOption {
    @Option(
            names = "--learner",
            paramLabel = "NAME",
            defaultValue = "${sys:user.name}",
            description = "Name of the learner (${DEFAULT-VALUE}).")
    private String learner;

    @Option(
            names = "--records",
            paramLabel = "DIR",
            description =
                    "Folder of the learners' files (by default learners in the window's settings "
                            + "folder, on Linux ~/.config/padward).")
    private Path folder;

    public String name() {
        return learner;
    }

    public LearnerFolder folder() {
        return folder == null ? LearnerFolder.standard() : LearnerFolder.at(folder);
    }

    public LearnerRecord read() throws BadInput {
        return folder().read(learner);
    }
}
