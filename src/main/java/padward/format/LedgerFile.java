package padward.format;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Ledger;
import padward.fabric.Fabric;

/**
 * A ledger's file, changed by one program at a time: a lock on a file beside it is held from
 * reading to writing.
 */
public final class LedgerFile {
    /** How a ledger is changed. */
    public interface Change {
        /** The ledger to be written in place of the one that was read. */
        Ledger to(Ledger ledger) throws BadInput;
    }

    private LedgerFile() {}

    /**
     * Reads a ledger, changes it, writes it again. Nothing is written when the change fails.
     *
     * @param file the ledger; need not exist yet
     * @param design the design's file, for a new ledger and to see that an old one is for it
     * @throws BadInput when another program holds it, it is for another file, or cannot be written
     */
    public static Ledger change(Path file, Path design, Fabric fabric, Change change)
            throws BadInput {
        Path lock = file.resolveSibling(file.getFileName() + ".lock");
        try (FileChannel channel =
                        FileChannel.open(
                                lock, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
                FileLock held = channel.tryLock()) {
            if (held == null) {
                throw inUse(file);
            }
            try {
                Ledger old = readOrNew(file, design, fabric);
                Ledger changed = change.to(old);
                if (!changed.equals(old)) {
                    LedgerWriter.write(changed, fabric, file);
                }
                return changed;
            } finally {
                Files.deleteIfExists(lock);
            }
        } catch (OverlappingFileLockException twice) {
            throw inUse(file);
        } catch (IOException fault) {
            throw new BadInput(
                    file.toString(), "", "a folder that can be written", fault.getMessage());
        }
    }

    private static BadInput inUse(Path file) {
        return new BadInput(
                file.toString(), "", "a ledger that no one else is changing", "one in use");
    }

    private static Ledger readOrNew(Path file, Path design, Fabric fabric) throws BadInput {
        String digest = Digest.of(design);
        if (!Files.exists(file)) {
            return new Ledger(design.getFileName().toString(), digest, java.util.List.of());
        }
        Ledger ledger = LedgerReader.read(file, fabric, Progress.NONE);
        if (!ledger.digest().equals(digest)) {
            throw new BadInput(
                    file.toString(),
                    "$.sha256",
                    "the ledger of " + design + ", " + digest,
                    ledger.digest() + " (it was made on another file; see apply)");
        }
        return ledger;
    }
}
