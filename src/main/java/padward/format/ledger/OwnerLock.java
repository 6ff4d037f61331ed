package padward.format.ledger;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;

/**
 * A lock that one program at a time has on a file: the system's lock on a small file beside it,
 * which goes with the program, however that ends. The small file says who has it.
 *
 * <p>The small file is taken away with the lock. Whoever opened it before that has locked a file
 * that nobody else will find; so the lock counts only once the words just written are read back
 * through the file's name.
 *
 * <p>A program loses its locks on a file as soon as it closes that file under any of its handles
 * (IEEE 1003.1, fcntl). So what a lock is read back through stays open as long as the lock is held,
 * and no part of this program opens a small file that another part has locked.
 */
public final class OwnerLock implements AutoCloseable {
    private static final int TRIES = 20;

    /** A byte far behind the text, so that others can read the text where locks forbid reading. */
    private static final long PLACE = Long.MAX_VALUE - 1;

    /** What this program has locked, and the words that say so. */
    private static final Map<Path, String> HELD = new HashMap<>();

    private final Path path;
    private final FileChannel channel;
    private final FileChannel readBack;

    private OwnerLock(Path path, FileChannel channel, FileChannel readBack) {
        this.path = path;
        this.channel = channel;
        this.readBack = readBack;
    }

    /** The small file, by the one name under which this program knows it. */
    private static Path beside(Path file) throws IOException {
        Path whole = file.toAbsolutePath();
        return whole.getParent().toRealPath().resolve(whole.getFileName() + ".lock");
    }

    /**
     * Takes the lock, unless another program, or another part of this one, has it.
     *
     * @throws IOException when the small file cannot be written
     */
    public static Optional<OwnerLock> tryTake(Path file) throws IOException {
        Path path = beside(file);
        synchronized (HELD) {
            if (HELD.containsKey(path)) {
                return Optional.empty();
            }
            for (int i = 0; i < TRIES; i++) {
                FileChannel channel =
                        FileChannel.open(path, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
                boolean taken = false;
                try {
                    if (!isLocked(channel)) {
                        return Optional.empty();
                    }
                    String words = writeWords(channel);
                    Optional<FileChannel> readBack = readBack(path, words);
                    taken = readBack.isPresent();
                    if (taken) {
                        HELD.put(path, words);
                        return Optional.of(new OwnerLock(path, channel, readBack.get()));
                    }
                } finally {
                    if (!taken) {
                        channel.close();
                    }
                }
            }
        }
        return Optional.empty();
    }

    private static boolean isLocked(FileChannel channel) throws IOException {
        try {
            return channel.tryLock(PLACE, 1, false) != null;
        } catch (OverlappingFileLockException here) {
            return false;
        }
    }

    private static String writeWords(FileChannel channel) throws IOException {
        String words =
                "process "
                        + ProcessHandle.current().pid()
                        + ", "
                        + EntrySigning.user()
                        + "\n"
                        + UUID.randomUUID()
                        + "\n";
        ByteBuffer bytes = ByteBuffer.wrap(words.getBytes(StandardCharsets.UTF_8));
        channel.truncate(0);
        while (bytes.hasRemaining()) {
            channel.write(bytes);
        }
        return words;
    }

    /** The file under the name, left open, if it is the one that was locked. */
    private static Optional<FileChannel> readBack(Path path, String words) throws IOException {
        FileChannel other;
        try {
            other = FileChannel.open(path, StandardOpenOption.READ);
        } catch (NoSuchFileException gone) {
            return Optional.empty();
        }
        byte[] expected = words.getBytes(StandardCharsets.UTF_8);
        ByteBuffer found = ByteBuffer.allocate(expected.length + 1);
        int length = 0;
        while (length >= 0 && found.hasRemaining()) {
            length = other.read(found);
        }
        if (Arrays.equals(expected, Arrays.copyOf(found.array(), found.position()))) {
            return Optional.of(other);
        }
        other.close();
        return Optional.empty();
    }

    /** Who has the lock on a file, as the small file tells it; empty when it does not. */
    public static Optional<String> owner(Path file) {
        synchronized (HELD) {
            try {
                Path path = beside(file);
                String words = HELD.containsKey(path) ? HELD.get(path) : Files.readString(path);
                return words.lines().findFirst().filter(l -> !l.isBlank());
            } catch (IOException | RuntimeException unknown) {
                return Optional.empty();
            }
        }
    }

    @Override
    public void close() throws IOException {
        synchronized (HELD) {
            HELD.remove(path);
            try {
                Files.deleteIfExists(path);
            } catch (IOException stays) {
                // Some systems keep a file that is open; the next one to lock it takes it as it is.
            } finally {
                channel.close();
                readBack.close();
            }
        }
    }
}
