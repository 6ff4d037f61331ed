package padward.cli.option;

import java.nio.file.Path;
import padward.base.BadInput;
import padward.filework.NewFolder;
import picocli.CommandLine.Option;

/** The option of commands that write a folder of files: nothing is replaced without it. */
public final class ReplaceOption {
    @Option(
            names = "--replace",
            description =
                    "Replaces what an earlier run wrote to the folder; without it the folder must be "
                            + "new or empty.")
    private boolean replace;

    /**
     * Checks, before any work is done, that nothing stands in the folder that the user may want to
     * keep.
     *
     * @throws BadInput when it is not empty and nothing may be replaced
     */
    public void check(Path folder) throws BadInput {
        if (!replace) {
            NewFolder.check(folder, "a new or empty folder, or --replace");
        }
    }
}
