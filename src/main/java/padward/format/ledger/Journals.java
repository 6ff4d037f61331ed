package padward.format.ledger;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.base.OwnerLock;
import padward.base.WholeFile;
import padward.fabric.Fabric;

/**
 * The journals of a user, in one folder. Several windows on one design have a journal each.
 *
 * @param folder the folder; need not exist yet
 */
public record Journals(Path folder) {
    private static final int MOST = 9;

    /**
     * A journal that has been opened.
     *
     * @param journal the journal
     * @param setAside what was kept earlier and cannot be used, and where it was moved; empty when
     *     there was no such journal
     */
    public record Begun(Journal journal, Optional<BadInput> setAside) {
        /** What of the user's earlier changes is damaged or cannot be used. */
        public Optional<BadInput> fault() {
            return journal.damage().or(() -> setAside);
        }
    }

    /**
     * Opens a journal: one with recorded changes that nobody has open, otherwise a new one. A
     * journal that no longer fits the file is renamed, not deleted.
     *
     * @param name identifies the design's file
     * @param digest digest of the file's bytes
     * @throws BadInput when the folder cannot be used, or all journals are in use
     */
    public Begun open(String name, String digest, Fabric fabric) throws BadInput {
        try {
            Files.createDirectories(folder);
        } catch (IOException fault) {
            throw WholeFile.describe(folder, fault);
        }
        Optional<BadInput> unusable = Optional.empty();
        List<Path> files = new ArrayList<>();
        for (int i = 1; i <= MOST; i++) {
            Path file = folder.resolve(name + (i == 1 ? "" : "-" + i) + ".journal");
            try {
                boolean recorded = Journal.holdsEntries(file, digest, fabric);
                files.add(recorded ? 0 : files.size(), file);
            } catch (BadInput fault) {
                Optional<Path> aside = putAside(file);
                if (aside.isPresent()) {
                    unusable = Optional.of(setAside(fault, aside.get()));
                    files.add(file);
                }
            }
        }
        for (Path file : files) {
            Optional<Journal> journal = Journal.open(file, digest, fabric);
            if (journal.isPresent()) {
                return new Begun(journal.get(), unusable);
            }
        }
        throw new BadInput(
                folder.toString(),
                "",
                "a journal for this design that is not in use",
                MOST + " of them, all in use");
    }

    /** That kept changes cannot be used, and where they are. */
    public static BadInput setAside(BadInput fault, Path aside) {
        return new BadInput(
                fault.source(),
                fault.place(),
                fault.expected(),
                fault.found()
                        + "; the changes kept last time do not fit and are not shown; they are in "
                        + aside);
    }

    /** Renames a journal; empty when another program has it open. */
    @SuppressWarnings("try") // The resource is only to be closed.
    private static Optional<Path> putAside(Path file) throws BadInput {
        Path aside = Journal.freeNameAside(file);
        try {
            Optional<OwnerLock> lock = OwnerLock.tryTake(file);
            if (lock.isEmpty()) {
                return Optional.empty();
            }
            try (OwnerLock used = lock.get()) {
                return Optional.of(Files.move(file, aside, StandardCopyOption.ATOMIC_MOVE));
            }
        } catch (IOException fault) {
            throw WholeFile.describe(aside, fault);
        }
    }
}
