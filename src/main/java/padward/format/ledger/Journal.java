package padward.format.ledger;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.base.OwnerLock;
import padward.base.WholeFile;
import padward.change.LedgerEntry;
import padward.fabric.Fabric;
import padward.format.source.IoFaults;
import padward.format.source.Source;

/**
 * The changes kept on a design in the window, written at once, so that they survive the program
 * however it ends. Lines are only ever appended; one that was cut short is ignored. A file belongs
 * to one program at a time.
 *
 * <p>Recording hands the line to the operating system, so it survives if the program is killed;
 * after {@link #flush} it survives a power failure, too.
 */
public final class Journal implements AutoCloseable {
    private final Path file;
    private final Fabric fabric;
    private final OwnerLock lock;
    private final FileChannel channel;
    private final List<LedgerEntry> found;
    private List<LedgerEntry> kept;

    private Journal(
            Path file,
            Fabric fabric,
            OwnerLock lock,
            FileChannel channel,
            JournalLines.State state) {
        this.file = file;
        this.fabric = fabric;
        this.lock = lock;
        this.channel = channel;
        this.found = state.entries();
        this.kept = state.entries();
    }

    /**
     * Opens a journal, or begins one.
     *
     * @param digest digest of the design's file
     * @param fabric the fabric whose vertices the entries name
     * @return empty when another program has it open
     * @throws BadInput when it cannot be read or written, or is for another version of the file
     */
    public static Optional<Journal> open(Path file, String digest, Fabric fabric) throws BadInput {
        try {
            Optional<OwnerLock> lock = OwnerLock.tryTake(file);
            if (lock.isEmpty()) {
                return Optional.empty();
            }
            boolean opened = false;
            try {
                Journal journal = open(file, digest, fabric, lock.get());
                opened = true;
                return Optional.of(journal);
            } finally {
                if (!opened) {
                    lock.get().close();
                }
            }
        } catch (IOException fault) {
            throw WholeFile.describe(file, fault);
        }
    }

    private static Journal open(Path file, String digest, Fabric fabric, OwnerLock lock)
            throws IOException, BadInput {
        JournalLines.State state = read(file, digest, fabric);
        // Rewritten as its net effect, so that it does not grow from session to session.
        WholeFile.write(
                file,
                out -> {
                    out.write(JournalLines.head(digest));
                    out.write(JournalLines.kept(0, state.entries(), fabric));
                });
        FileChannel channel = FileChannel.open(file, StandardOpenOption.APPEND);
        return new Journal(file, fabric, lock, channel, state);
    }

    private static JournalLines.State read(Path file, String digest, Fabric fabric)
            throws IOException, BadInput {
        byte[] bytes = bytes(file);
        String written = JournalLines.digestOf(bytes);
        if (bytes.length > 0 && written.isEmpty()) {
            throw new BadInput(file.toString(), "line 1", "a journal", "something else");
        }
        if (!written.isEmpty() && !written.equals(digest)) {
            throw new BadInput(
                    file.toString(),
                    "sha256",
                    "changes kept on this version of the file",
                    "another");
        }
        return JournalLines.read(bytes, file.toString(), fabric);
    }

    private static byte[] bytes(Path file) throws IOException {
        try {
            return Files.readAllBytes(file);
        } catch (NoSuchFileException none) {
            return new byte[0];
        }
    }

    /**
     * The entries of a journal, read only, without opening it.
     *
     * @throws BadInput when it cannot be read, or is for another version of the file
     */
    static List<LedgerEntry> look(Path file, String digest, Fabric fabric) throws BadInput {
        try {
            return read(file, digest, fabric).entries();
        } catch (IOException fault) {
            throw IoFaults.describe(Source.of(file), fault);
        }
    }

    /** What an earlier program kept; empty when it kept nothing. */
    public List<LedgerEntry> found() {
        return found;
    }

    /**
     * Records all changes kept so far. Once this has returned, killing the program loses none of
     * them.
     *
     * @throws BadInput when it cannot be written
     */
    public void record(List<LedgerEntry> now) throws BadInput {
        int stay = 0;
        while (stay < now.size() && stay < kept.size() && now.get(stay).equals(kept.get(stay))) {
            stay++;
        }
        if (stay < now.size() || stay < kept.size()) {
            append(JournalLines.kept(stay, now.subList(stay, now.size()), fabric));
            kept = List.copyOf(now);
        }
    }

    /** One write; if it fails halfway, what it left is cut off again. */
    private void append(byte[] line) throws BadInput {
        long before = -1;
        try {
            before = channel.size();
            ByteBuffer bytes = ByteBuffer.wrap(line);
            while (bytes.hasRemaining()) {
                channel.write(bytes);
            }
        } catch (IOException fault) {
            cutBack(before);
            throw WholeFile.describe(file, fault);
        }
    }

    private void cutBack(long length) {
        try {
            if (length >= 0) {
                channel.truncate(length);
            }
        } catch (IOException ignored) {
            // The fault that led here is reported; readers ignore half a line.
        }
    }

    /**
     * Flushes to the disk what is recorded. May be called from another thread.
     *
     * @throws BadInput when that fails
     */
    public void flush() throws BadInput {
        try {
            channel.force(false);
        } catch (IOException fault) {
            throw WholeFile.describe(file, fault);
        }
    }

    /** Closes the journal; an empty one is deleted. */
    @Override
    public void close() throws BadInput {
        try (lock) {
            channel.close();
            if (kept.isEmpty()) {
                Files.deleteIfExists(file);
            }
        } catch (IOException fault) {
            throw WholeFile.describe(file, fault);
        }
    }
}
