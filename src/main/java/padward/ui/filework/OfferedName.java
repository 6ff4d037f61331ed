package padward.ui.filework;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Optional;
import java.util.function.Function;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;

/**
 * The name of a file that is written beside one that is read. It follows the name of that file
 * until the user states another.
 */
final class OfferedName {
    private final StringProperty text = new SimpleStringProperty("");
    private String offered = "";

    /**
     * @param input the file that is read
     * @param name what is offered for such a file
     */
    OfferedName(StringProperty input, Function<Path, Path> name) {
        input.addListener((p, old, now) -> offer(find(now, name)));
    }

    private static Optional<Path> find(String input, Function<Path, Path> name) {
        try {
            return Optional.of(input.strip())
                    .filter(i -> !i.isEmpty())
                    .map(Path::of)
                    .filter(i -> i.getFileName() != null)
                    .map(name);
        } catch (InvalidPathException wrong) {
            return Optional.empty();
        }
    }

    private void offer(Optional<Path> name) {
        if (text.get().isBlank() || text.get().equals(offered)) {
            offered = name.map(Path::toString).orElse("");
            text.set(offered);
        }
    }

    /** The name as it stands in its field. */
    StringProperty textProperty() {
        return text;
    }
}
