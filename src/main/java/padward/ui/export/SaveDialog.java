package padward.ui.export;

import java.nio.file.Path;
import java.util.Optional;

/** Asks where something is to be saved. */
public interface SaveDialog {
    /**
     * @param title what is saved
     * @param name the name that is proposed
     * @return empty when it is not to be saved after all
     */
    Optional<Path> ask(String title, String name);
}
