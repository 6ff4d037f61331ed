package padward.format.ledger;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
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
     * @param setAside what was kept earlier and cannot be used, with where it stands now; empty
     *     when there is nothing of the kind
     */
    public record Begun(Journal journal, Optional<BadInput> setAside) {}

    /**
     * Opens a journal: one that holds something and that nobody has open, else a fresh one. One
     * that does not fit the file any more is put aside, not lost.
     *
     * @param name stands for the design's file
     * @param digest digest of the file's bytes
     * @throws BadInput when the folder cannot be used, or all journals are in use
     */
    public Begun open(String name, String digest, Fabric fabric) throws BadInput {
        try {
            Files.createDirectories(folder);
        } catch (IOException fault) {
            throw WholeFile.describe(folder, fault);
        }
        Optional<BadInput> setAside = Optional.empty();
        List<Path> files = new ArrayList<>();
        for (int i = 1; i <= MOST; i++) {
            Path file = folder.resolve(name + (i == 1 ? "" : "-" + i) + ".journal");
            try {
                boolean holds = !Journal.look(file, digest, fabric).isEmpty();
                files.add(holds ? 0 : files.size(), file);
            } catch (BadInput fault) {
                Optional<Path> aside = putAside(file);
                if (aside.isPresent()) {
                    setAside = Optional.of(told(fault, aside.get()));
                    files.add(file);
                }
            }
        }
        for (Path file : files) {
            Optional<Journal> journal = Journal.open(file, digest, fabric);
            if (journal.isPresent()) {
                return new Begun(journal.get(), setAside);
            }
        }
        throw new BadInput(
                folder.toString(),
                "",
                "a journal for this design that is not in use",
                MOST + " of them, all in use");
    }

    private static BadInput told(BadInput fault, Path aside) {
        return new BadInput(
                fault.source(),
                fault.place(),
                fault.expected(),
                fault.found()
                        + "; what was kept the last time does not fit and is not shown, it stands"
                        + " in "
                        + aside);
    }

    /** Empty when somebody has it open. */
    @SuppressWarnings("try") // The resource is only to be closed.
    private static Optional<Path> putAside(Path file) throws BadInput {
        Path aside = file;
        for (int i = 1; Files.exists(aside); i++) {
            aside = file.resolveSibling(file.getFileName() + "." + i + ".old");
        }
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
