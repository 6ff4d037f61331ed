package padward.ui.export;

import java.nio.file.Path;
import java.util.Optional;

/** Asks where to save something. */
public interface SaveDialog {
    /**
     * @param title title of the dialog
     * @param name suggested file name
     * @return empty when the user cancels
     */
    Optional<Path> ask(String title, String name);
}
