package padward.ui.model;

import java.nio.file.Path;
import java.util.Optional;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Design;

/** Where what is kept stands safe until it is undone, so that a crash loses nothing of it. */
public interface KeptChangeStore extends AutoCloseable {
    /** Keeps nothing. */
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
     * What was kept on a design's file the last time.
     *
     * @throws BadInput when it cannot be read or does not fit the file any more; it is put aside
     *     then, not lost
     */
    Optional<KeptChanges> find(Path file, Design design, Progress progress) throws BadInput;

    /**
     * Remembers what is kept on a design's file, in place of what was. Quick; once it returns, the
     * end of the program loses nothing of it.
     *
     * @throws BadInput when it cannot be written
     */
    void save(Path file, KeptChanges kept) throws BadInput;

    /**
     * Makes what is remembered outlive the machine's power, too. May take long.
     *
     * @throws BadInput when that fails
     */
    void flush() throws BadInput;

    /** Lets others use what this one has used. */
    @Override
    void close() throws BadInput;
}
