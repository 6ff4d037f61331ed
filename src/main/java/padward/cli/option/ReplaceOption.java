package padward.cli.option;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import padward.base.BadInput;
import padward.base.ReadFault;
import padward.format.source.Text;
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
        if (replace || !Files.isDirectory(folder)) {
            return;
        }
        try (Stream<Path> all = Files.list(folder)) {
            List<String> there = all.map(f -> f.getFileName().toString()).sorted().toList();
            if (!there.isEmpty()) {
                throw new BadInput(
                        folder.toString(),
                        "",
                        "a new or empty folder, or --replace",
                        Text.quote(there.get(0)) + " in it");
            }
        } catch (IOException fault) {
            throw ReadFault.of(folder.toString(), fault);
        }
    }
}
