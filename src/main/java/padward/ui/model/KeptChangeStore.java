package padward.ui.model;

import java.nio.file.Path;
import java.util.Optional;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Design;

/** Saves kept changes until they are undone, so that a crash loses none of them. */
public interface KeptChangeStore extends AutoCloseable {
    /** Saves nothing. */
    KeptChangeStore NONE =
            new KeptChangeStore() {
                @Override
                public Optional<KeptChanges> find(Path file, Design design, Progress progress) {
                    return Optional.empty();
                }

                @Override
                public void save(Path file, KeptChanges kept) {}

                @Override
                public void flush() {}

                @Override
                public void close() {}
            };

    /**
     * The changes that were kept on a design file in the last session.
     *
     * @throws BadInput when they cannot be read or no longer fit the file; they are then set aside,
     *     not lost
     */
    Optional<KeptChanges> find(Path file, Design design, Progress progress) throws BadInput;

    /**
     * Replaces the saved changes of a design file. Quick; once it returns, the changes survive the
     * end of the program.
     *
     * @throws BadInput when it cannot be written
     */
    void save(Path file, KeptChanges kept) throws BadInput;

    /**
     * Makes the saved changes survive a power failure too. May take long.
     *
     * @throws BadInput when that fails
     */
    void flush() throws BadInput;

    /** Releases the files for other windows. */
    @Override
    void close() throws BadInput;
}
