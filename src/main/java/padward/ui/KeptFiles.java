package padward.ui;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Optional;
import java.util.UUID;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Design;

/** What is kept, as a ledger for each design's file, in one folder. */
final class KeptFiles implements KeptStore {
    private final Path folder;

    KeptFiles(Path folder) {
        this.folder = folder;
    }

    @Override
    public synchronized Optional<TrialDesk> find(Path file, Design design, Progress progress)
            throws BadInput {
        Path ledger = ledgerOf(file);
        if (!Files.exists(ledger)) {
            return Optional.empty();
        }
        try {
            return Optional.of(TrialDesk.open(ledger, design, progress));
        } catch (BadInput fault) {
            Path aside = putAside(ledger);
            throw new BadInput(
                    fault.source(),
                    fault.place(),
                    fault.expected(),
                    fault.found()
                            + "; what was kept the last time does not fit and is not shown, it"
                            + " stands in "
                            + aside);
        }
    }

    @Override
    public synchronized void save(Path file, TrialDesk desk) throws BadInput {
        Path ledger = ledgerOf(file);
        try {
            if (desk.kept().isEmpty()) {
                Files.deleteIfExists(ledger);
                return;
            }
            Files.createDirectories(folder);
        } catch (IOException fault) {
            throw cannot(ledger, fault);
        }
        desk.save(ledger, file);
    }

    /** The ledger's name tells the design's, and a number that stands for its whole path. */
    private Path ledgerOf(Path file) {
        String path = file.toAbsolutePath().normalize().toString();
        UUID number = UUID.nameUUIDFromBytes(path.getBytes(StandardCharsets.UTF_8));
        String name = file.getFileName().toString().replaceAll("\\.json(\\.gz)?$", "");
        return folder.resolve(name + "." + number + ".ledger.json");
    }

    private static Path putAside(Path ledger) throws BadInput {
        Path aside = ledger;
        for (int i = 1; Files.exists(aside); i++) {
            aside = ledger.resolveSibling(ledger.getFileName() + "." + i + ".old");
        }
        try {
            return Files.move(ledger, aside, StandardCopyOption.ATOMIC_MOVE);
        } catch (IOException fault) {
            throw cannot(aside, fault);
        }
    }

    private static BadInput cannot(Path file, IOException fault) {
        return new BadInput(
                file.toString(), "", "a folder that can be written", String.valueOf(fault));
    }
}
