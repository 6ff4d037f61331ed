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
                public Found find(Path file, Design design, Progress progress) {
                    return Found.NOTHING;
                }

                @Override
                public void save(Path file, KeptChanges kept) {}

                @Override
                public void flush() {}

                @Override
                public void close() {}
            };

    /**
     * What was found.
     *
     * @param kept the changes of the last session
     * @param fault what is damaged or no longer fits the file; it is set aside, not lost
     */
    record Found(Optional<KeptChanges> kept, Optional<BadInput> fault) {
        private static final Found NOTHING = new Found(Optional.empty(), Optional.empty());
    }

    /**
     * The changes that were kept on a design file in the last session.
     *
     * @throws BadInput when they cannot be read
     */
    Found find(Path file, Design design, Progress progress) throws BadInput;

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
