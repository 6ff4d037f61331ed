package padward.filework;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import padward.base.BadInput;
import padward.base.ReadFault;
import padward.format.source.Text;

/** Checks that a folder to write to has nothing in it that the user may want to keep. */
public final class NewFolder {
    private NewFolder() {}

    /**
     * Checks it.
     *
     * @param expected what the folder has to be, in words
     * @throws BadInput when something is in it
     */
    public static void check(Path folder, String expected) throws BadInput {
        if (!Files.isDirectory(folder)) {
            return;
        }
        try (Stream<Path> all = Files.list(folder)) {
            List<String> there = all.map(f -> f.getFileName().toString()).sorted().toList();
            if (!there.isEmpty()) {
                throw new BadInput(
                        folder.toString(), "", expected, Text.quote(there.get(0)) + " in it");
            }
        } catch (IOException fault) {
            throw ReadFault.of(folder.toString(), fault);
        }
    }
}
