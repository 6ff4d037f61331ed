package padward.ui.model;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Design;
import padward.format.design.Digest;
import padward.format.ledger.Journal;
import padward.format.ledger.Journals;

/**
 * Kept changes in one journal per design file: written before they are shown as kept, so that
 * killing the window at any moment loses none of them. Two windows on one file do not interfere.
 *
 * <p>{@link #save} waits for nothing that takes long: files are hashed and flushed to the disk
 * without the lock.
 */
final class JournalStore implements KeptChangeStore {
    private final Journals journals;

    /** Digests of the design files as they were read. */
    private final Map<Path, String> digests = new HashMap<>();

    private Optional<Open> open = Optional.empty();

    private record Open(Path file, Journal journal) {}

    /**
     * @param folder where the journals are
     */
    JournalStore(Path folder) {
        this.journals = new Journals(folder);
    }

    @Override
    public Found find(Path file, Design design, Progress progress) throws BadInput {
        String digest = Digest.of(file);
        flush();
        Journals.Begun begun = begin(file, digest, design);
        Journal journal = begun.journal();
        if (journal.found().isEmpty()) {
            return new Found(Optional.empty(), begun.fault());
        }
        try {
            KeptChanges kept = KeptChanges.of(file, journal.found(), design);
            return new Found(Optional.of(kept), begun.fault());
        } catch (BadInput unfit) {
            // What is kept from now on must not replace it.
            BadInput fault = Journals.setAside(unfit, journal.setAside());
            return new Found(Optional.empty(), Optional.of(fault));
        }
    }

    private synchronized Journals.Begun begin(Path file, String digest, Design design)
            throws BadInput {
        digests.put(file, digest);
        close();
        Journals.Begun begun = journals.open(name(file), digest, design.fabric());
        open = Optional.of(new Open(file, begun.journal()));
        return begun;
    }

    @Override
    public synchronized void save(Path file, KeptChanges kept) throws BadInput {
        if (open.filter(o -> o.file().equals(file)).isEmpty()) {
            String known = digests.get(file);
            String digest = known == null ? Digest.of(file) : known;
            Journal journal = begin(file, digest, kept.original()).journal();
            if (!kept.entries().containsAll(journal.found())) {
                // Never shown, so not undone by the user either.
                journal.setAside();
            }
        }
        open.orElseThrow().journal().record(kept.entries());
    }

    @Override
    public void flush() throws BadInput {
        Optional<Open> now = now();
        try {
            if (now.isPresent()) {
                now.get().journal().flush();
            }
        } catch (BadInput fault) {
            // One that was closed meanwhile was flushed before.
            if (now().equals(now)) {
                throw fault;
            }
        }
    }

    private synchronized Optional<Open> now() {
        return open;
    }

    @Override
    public synchronized void close() throws BadInput {
        if (open.isPresent()) {
            Journal old = open.get().journal();
            open = Optional.empty();
            old.close();
        }
    }

    /** The name of the design file, and a number derived from its full path. */
    private static String name(Path file) {
        String path = file.toAbsolutePath().normalize().toString();
        UUID number = UUID.nameUUIDFromBytes(path.getBytes(StandardCharsets.UTF_8));
        return file.getFileName().toString().replaceAll("\\.json(\\.gz)?$", "") + "." + number;
    }
}
