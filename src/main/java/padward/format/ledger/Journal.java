package padward.format.ledger;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import padward.base.BadInput;
import padward.base.OwnerLock;
import padward.base.WholeFile;
import padward.change.LedgerEntry;
import padward.fabric.Fabric;
import padward.format.source.IoFaults;
import padward.format.source.Source;

/**
 * The changes kept on a design in the window, written at once, so that they survive the program
 * however it ends. Lines are only ever appended; one that was cut short is ignored. A damaged line
 * loses only the changes in it, and the damaged file is put aside. A file belongs to one program at
 * a time.
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
    private final Optional<BadInput> damage;
    private List<LedgerEntry> kept;

    /** The numbers of the kept entries in the file. */
    private List<Integer> numbers;

    private int next;

    private Journal(
            Path file,
            Fabric fabric,
            OwnerLock lock,
            FileChannel channel,
            List<LedgerEntry> found,
            Optional<BadInput> damage) {
        this.file = file;
        this.fabric = fabric;
        this.lock = lock;
        this.channel = channel;
        this.found = found;
        this.damage = damage;
        this.kept = found;
        this.numbers = IntStream.rangeClosed(1, found.size()).boxed().toList();
        this.next = found.size() + 1;
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
        WholeFile.clearLeftovers(file);
        JournalLines.State state = read(file, digest, fabric);
        Optional<BadInput> damage = Optional.empty();
        if (!state.damaged().isEmpty()) {
            damage = Optional.of(describe(file, state, copyAside(file)));
        }
        List<LedgerEntry> entries = state.entries();
        // Rewritten as its net effect, so that it does not grow from session to session; a line
        // for each entry, so that damage loses few.
        WholeFile.write(
                file,
                out -> {
                    out.write(JournalLines.head(digest));
                    List<Integer> stay = new ArrayList<>();
                    for (LedgerEntry entry : entries) {
                        int number = stay.size() + 1;
                        out.write(JournalLines.kept(stay, number, List.of(entry), fabric));
                        stay.add(number);
                    }
                });
        FileChannel channel = FileChannel.open(file, StandardOpenOption.APPEND);
        return new Journal(file, fabric, lock, channel, entries, damage);
    }

    private static BadInput describe(Path file, JournalLines.State state, Path aside) {
        List<Integer> lines = state.damaged();
        String which = lines.stream().map(String::valueOf).collect(Collectors.joining(", "));
        return new BadInput(
                file.toString(),
                (lines.size() == 1 ? "line " : "lines ") + which,
                "what was written there",
                "damaged bytes; changes kept in those lines may be missing, all others are shown;"
                        + " the damaged file is copied to "
                        + aside);
    }

    /** A copy that nothing changes any more, on the disk before anything is rewritten. */
    private static Path copyAside(Path file) throws IOException, BadInput {
        Path aside = freeNameAside(file);
        WholeFile.write(aside, out -> Files.copy(file, out));
        return aside;
    }

    /** A free name for what cannot be used any more. */
    static Path freeNameAside(Path file) {
        Path aside = file;
        for (int i = 1; Files.exists(aside, LinkOption.NOFOLLOW_LINKS); i++) {
            aside = file.resolveSibling(file.getFileName() + "." + i + ".old");
        }
        return aside;
    }

    private static JournalLines.State read(Path file, String digest, Fabric fabric)
            throws IOException, BadInput {
        byte[] bytes = bytes(file);
        JournalLines.State state = JournalLines.read(bytes, file.toString(), fabric);
        if (bytes.length > 0 && state.digest().isEmpty()) {
            throw new BadInput(file.toString(), "line 1", "a journal", "something else");
        }
        if (!state.digest().isEmpty() && !state.digest().equals(digest)) {
            throw new BadInput(
                    file.toString(),
                    "sha256",
                    "changes kept on this version of the file",
                    "another");
        }
        return state;
    }

    private static byte[] bytes(Path file) throws IOException {
        try {
            return Files.readAllBytes(file);
        } catch (NoSuchFileException none) {
            return new byte[0];
        }
    }

    /**
     * Whether there are entries in a journal, or may have been; reads only, without opening it.
     *
     * @throws BadInput when it cannot be read, or is for another version of the file
     */
    static boolean holdsEntries(Path file, String digest, Fabric fabric) throws BadInput {
        try {
            JournalLines.State state = read(file, digest, fabric);
            return !state.entries().isEmpty() || !state.damaged().isEmpty();
        } catch (IOException fault) {
            throw IoFaults.describe(Source.of(file), fault);
        }
    }

    /** What an earlier program kept; empty when it kept nothing. */
    public List<LedgerEntry> found() {
        return found;
    }

    /** What of it was damaged, and where the damaged file is; empty when nothing was. */
    public Optional<BadInput> damage() {
        return damage;
    }

    /**
     * Puts a copy aside, and begins with nothing kept: for changes that do not fit the design.
     *
     * @return where the copy is
     * @throws BadInput when it cannot be written
     */
    public Path setAside() throws BadInput {
        try {
            Path aside = copyAside(file);
            record(List.of());
            return aside;
        } catch (IOException fault) {
            throw WholeFile.describe(file, fault);
        }
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
            List<Integer> all = new ArrayList<>(numbers.subList(0, stay));
            append(JournalLines.kept(all, next, now.subList(stay, now.size()), fabric));
            while (all.size() < now.size()) {
                all.add(next);
                next++;
            }
            numbers = all;
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
