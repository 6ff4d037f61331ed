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
 * A lock that one program at a time has on a file: the operating system's lock on a small file next
 * to it, which ends with the program, however that ends. The lock file names the owner.
 *
 * <p>The lock file is deleted with the lock. A program that opened it just before then locks a file
 * that nobody else will find; so the lock counts only once the text just written is read back
 * through the file's name.
 *
 * <p>A program loses its locks on a file as soon as it closes any of its handles on that file (IEEE
 * 1003.1, fcntl). So the handle used for reading back stays open as long as the lock, and no part
 * of this program opens a lock file that another part has locked.
 */
public final class OwnerLock implements AutoCloseable {
    private static final int TRIES = 20;

    /** A byte far after the text: the text stays readable where locks forbid reading. */
    private static final long PLACE = Long.MAX_VALUE - 1;

    /** The lock files of this program, with their texts. */
    private static final Map<Path, String> OWNED = new HashMap<>();

    private final Path path;
    private final FileChannel channel;
    private final FileChannel readBack;

    private OwnerLock(Path path, FileChannel channel, FileChannel readBack) {
        this.path = path;
        this.channel = channel;
        this.readBack = readBack;
    }

    /** The lock file, by a name that is the same whichever link leads to it. */
    private static Path lockFile(Path file) throws IOException {
        Path whole = file.toAbsolutePath();
        return whole.getParent().toRealPath().resolve(whole.getFileName() + ".lock");
    }

    /**
     * Takes the lock, unless another program, or another part of this one, has it.
     *
     * @throws IOException when the lock file cannot be written
     */
    public static Optional<OwnerLock> tryTake(Path file) throws IOException {
        Path path = lockFile(file);
        synchronized (OWNED) {
            if (OWNED.containsKey(path)) {
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
                        OWNED.put(path, words);
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

    /** Who has the lock on a file, as the lock file says; empty when it does not say. */
    public static Optional<String> owner(Path file) {
        synchronized (OWNED) {
            try {
                Path path = lockFile(file);
                String words = OWNED.containsKey(path) ? OWNED.get(path) : Files.readString(path);
                return words.lines().findFirst().filter(l -> !l.isBlank());
            } catch (IOException | RuntimeException unknown) {
                return Optional.empty();
            }
        }
    }

    @Override
    public void close() throws IOException {
        synchronized (OWNED) {
            OWNED.remove(path);
            try {
                Files.deleteIfExists(path);
            } catch (IOException stays) {
                // Some systems do not delete an open file; the next owner reuses it.
            } finally {
                channel.close();
                readBack.close();
            }
        }
    }
}
