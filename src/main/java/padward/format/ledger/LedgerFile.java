package padward.format.ledger;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import padward.base.BadInput;
import padward.base.OwnerLock;
import padward.base.Progress;
import padward.base.WholeFile;
import padward.change.Ledger;
import padward.fabric.Fabric;
import padward.format.design.Digest;

/**
 * A ledger's file, changed by one program at a time: it is locked from reading to writing. The file
 * is replaced as a whole, so a program that is killed at any moment leaves the ledger before or
 * after the change, never half of it. What was reported as kept is in it.
 */
public final class LedgerFile {
    /** How a ledger is changed. */
    public interface Change {
        /** The ledger to be written in place of the one that was read. */
        Ledger to(Ledger ledger) throws BadInput;
    }

    private LedgerFile() {}

    /**
     * Reads a ledger, changes it, writes it back. Nothing is written when the change fails.
     *
     * @param name the ledger's file; need not exist yet
     * @param design the design's file, for a new ledger and to see that an old one is for it
     * @throws BadInput when another program uses it, it is for another file, or cannot be written
     */
    public static Ledger change(Path name, Path design, Fabric fabric, Change change)
            throws BadInput {
        return change(name, design, fabric, change, false);
    }

    /**
     * The same, but the file is there afterwards even where nothing changed.
     *
     * @throws BadInput as {@link #change}
     */
    public static Ledger write(Path name, Path design, Fabric fabric, Change change)
            throws BadInput {
        return change(name, design, fabric, change, true);
    }

    @SuppressWarnings("try") // The resource is only to be closed.
    private static Ledger change(
            Path name, Path design, Fabric fabric, Change change, boolean always) throws BadInput {
        // One lock for all names that lead to the file.
        Path file = Files.isSymbolicLink(name) ? WholeFile.end(name) : name;
        try (OwnerLock used = OwnerLock.take(file, "a ledger that no one else is changing")) {
            WholeFile.clearLeftovers(file);
            Ledger old = readOrNew(file, design, fabric);
            Ledger changed = change.to(old);
            if (always || !changed.equals(old)) {
                LedgerWriter.write(changed, fabric, file);
            }
            return changed;
        }
    }

    /**
     * What {@link #change} would write, of the ledger as it is now; nothing is written.
     *
     * @throws BadInput when it is for another file, or the change fails
     */
    public static Ledger tried(Path name, Path design, Fabric fabric, Change change)
            throws BadInput {
        return change.to(readOrNew(name, design, fabric));
    }

    private static Ledger readOrNew(Path file, Path design, Fabric fabric) throws BadInput {
        if (!Files.exists(file)) {
            return new Ledger(design.getFileName().toString(), Digest.of(design), List.of());
        }
        Ledger ledger = LedgerReader.read(file, fabric, Progress.NONE);
        LedgerReplay.checkFile(ledger, file, design);
        return ledger;
    }
}
