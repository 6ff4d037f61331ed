package padward.ui.model;

import java.nio.file.Path;
import java.util.Optional;
import padward.ui.design.OpenDesign;

/**
 * What is open, as one value. Every change makes another one; nothing else in the window says which
 * design is open or what is kept on it.
 *
 * @param version grows with every change; a result that was worked out on another version is not
 *     about this one
 * @param origin where the design came from
 * @param kept the design as it was opened, and what is kept on it
 * @param opened the design with what is kept, and what the views need to show it
 */
public record WorkState(long version, Origin origin, KeptChanges kept, OpenDesign opened) {
    /** Where a design came from. */
    public sealed interface Origin {
        /** The file it was read from; none for what comes with the program. */
        default Optional<Path> file() {
            return Optional.empty();
        }
    }

    /**
     * A design file.
     *
     * @param path the file
     */
    public record OfFile(Path path) implements Origin {
        @Override
        public Optional<Path> file() {
            return Optional.of(path);
        }
    }

    /** The demo. What is kept on it lasts until the program ends. */
    public record OfDemo() implements Origin {}

    /** The design of a lesson or of a worked example: begun afresh each time. */
    public record OfLesson() implements Origin {}
}
