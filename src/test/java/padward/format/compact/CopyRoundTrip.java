package padward.format.compact;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.Arrays;
import java.util.Optional;
import padward.base.BadInput;
import padward.base.Progress;
import padward.fabric.explicit.ExplicitFabric;
import padward.format.fabric.FabricReader;
import padward.format.source.Source;
import padward.format.source.SourceDigest;

/** Compact copies of a small fabric that others have changed, with digests that fit again. */
public final class CopyRoundTrip {
    private static final long MOST_BYTES = 1 << 24;

    private final Source source;
    private final SourceDigest digest;

    /**
     * For one fabric.
     *
     * @param fabric a file that lists every wire
     */
    public CopyRoundTrip(Path fabric) throws BadInput {
        this.source = Source.of(fabric);
        this.digest = SourceDigest.of(source, Progress.NONE);
    }

    /** Writes the sound copy; the name of its file. */
    public String sound(Path to) throws IOException, BadInput {
        Path folder = Files.createDirectories(to.resolveSibling("sound-copies"));
        CopyFolder copies = new CopyFolder(folder);
        ExplicitFabric fabric = (ExplicitFabric) FabricReader.read(source, Progress.NONE);
        new FabricCopies(copies, MOST_BYTES).keep(digest, source.size(), fabric, Progress.NONE);
        Files.copy(copies.copies().get(0).path(), to);
        copies.clear();
        Files.delete(folder);
        return to.getFileName().toString();
    }

    /**
     * Reads a copy with the digest made right. What is not sound is none, and is replaced; what is
     * taken for a fabric answers whatever it is asked, and can be asked for everything.
     *
     * @throws BadInput when the copy is not used
     */
    public void check(Path changed) throws Exception {
        byte[] bytes = Files.readAllBytes(changed);
        int length = bytes.length - SourceDigest.BYTES;
        if (length > 0) {
            MessageDigest sum = SourceDigest.start();
            sum.update(bytes, 0, length);
            System.arraycopy(sum.digest(), 0, bytes, length, SourceDigest.BYTES);
        }
        CopyFolder folder = new CopyFolder(changed.resolveSibling("copies"));
        folder.make();
        Path copy = folder.copy(digest.toText(), source.size(), FabricCopies.SORT);
        Files.write(copy, bytes);
        FabricCopies copies = new FabricCopies(folder, MOST_BYTES);
        Optional<ExplicitFabric> found = copies.find(source, Progress.NONE);
        if (found.isPresent()) {
            SameFabric.told(found.get(), false);
            return;
        }
        ExplicitFabric own =
                copies.read(
                        source,
                        () -> (ExplicitFabric) FabricReader.read(source, Progress.NONE),
                        Progress.NONE);
        if (Arrays.equals(Files.readAllBytes(copy), bytes)) {
            throw new AssertionError("a copy that is not used was left, of " + own.info().name());
        }
        throw new BadInput("copy", "", "a sound one", "another");
    }

    /** The fabric by way of its copy in a folder, where one can be kept. */
    public ExplicitFabric get(Path folder) throws BadInput {
        FabricCopies copies = new FabricCopies(new CopyFolder(folder), MOST_BYTES);
        Optional<ExplicitFabric> copy = copies.find(source, Progress.NONE);
        return copy.isPresent()
                ? copy.get()
                : copies.read(
                        source,
                        () -> (ExplicitFabric) FabricReader.read(source, Progress.NONE),
                        Progress.NONE);
    }

    /** Whether a folder has a sound copy, and nothing else. */
    public boolean isAllOf(Path folder) throws BadInput {
        CopyFolder copies = new CopyFolder(folder);
        String[] names = folder.toFile().list();
        return names != null
                && names.length == 1
                && new FabricCopies(copies, MOST_BYTES).find(source, Progress.NONE).isPresent();
    }
}
