package padward.format.compact;

import java.io.IOException;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import padward.base.BadInput;
import padward.base.Progress;
import padward.fabric.compact.CompactOut;
import padward.fabric.explicit.ExplicitFabric;
import padward.format.source.Source;
import padward.format.source.SourceDigest;

/** Compact copies of explicit fabrics; the contents are {@link ExplicitFabric#write}. */
public final class FabricCopies {
    static final CopySort SORT = new CopySort("fabric", "PADWARD COMPACT\n", 5);

    private final Copies copies;
    private final long mostBytes;

    FabricCopies(CopyFolder folder, long mostBytes) {
        this(new Copies(folder, mostBytes, SORT), mostBytes);
    }

    private FabricCopies(Copies copies, long mostBytes) {
        this.copies = copies;
        this.mostBytes = mostBytes;
    }

    /** Where copies of a source are; empty when none are made of it. */
    public static Optional<FabricCopies> of(Source source) {
        return Copies.of(source, SORT).map(c -> new FabricCopies(c, CopyFolder.MOST_BYTES));
    }

    /**
     * The fabric of a source from its copy, if there is a sound one.
     *
     * @throws BadInput when the source cannot be read
     * @throws CancellationException when {@code progress} is cancelled
     */
    public Optional<ExplicitFabric> find(Source source, Progress progress) throws BadInput {
        return copies.find(source, ExplicitFabric::read, progress);
    }

    /**
     * Reads a source in its own form and keeps a copy of what was read.
     *
     * @throws BadInput when the source cannot be read or is no fabric
     * @throws CancellationException when {@code progress} is cancelled
     */
    public ExplicitFabric read(
            Source source, Copies.Reader<ExplicitFabric> reader, Progress progress)
            throws BadInput {
        return copies.read(source, reader, new Writer(), progress);
    }

    /**
     * Keeps a copy, where that is possible.
     *
     * @throws CancellationException when {@code progress} is cancelled; no copy is left then
     */
    void keep(SourceDigest digest, long length, ExplicitFabric fabric, Progress progress) {
        copies.keep(digest, length, fabric::write, progress);
    }

    private final class Writer implements Copies.ToCopy<ExplicitFabric> {
        @Override
        public boolean fits(ExplicitFabric fabric) {
            return fabric.graphBytes() + fabric.nameBytes() <= mostBytes;
        }

        @Override
        public void write(ExplicitFabric fabric, CompactOut out) throws IOException {
            fabric.write(out);
        }
    }
}
