package padward.base;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.OpenOption;
import java.nio.file.Path;
import java.nio.file.ReadOnlyFileSystemException;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;

/**
 * A lock that one program at a time has on a file: the operating system's lock on a small file next
 * to it, which ends with the program, however that ends. The lock file names the owner.
 *
 * <p>A file under the lock file's name that does not begin as lock files do, or that is a link, is
 * somebody's own: it is never written or deleted, and the lock is refused.
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
    /** What a lock file's name ends with. */
    public static final String ENDING = ".padward.lock";

    private static final String FIRST_LINE = "Lock of Padward\n";
    private static final int TRIES = 20;

    /** More than any lock file has. */
    private static final int LONGEST = 4096;

    /** A byte far after the text: the text stays readable where locks forbid reading. */
    private static final long PLACE = Long.MAX_VALUE - 1;

    private static final Set<OpenOption> TO_LOCK =
            Set.of(
                    StandardOpenOption.CREATE,
                    StandardOpenOption.READ,
                    StandardOpenOption.WRITE,
                    LinkOption.NOFOLLOW_LINKS);
    private static final Set<OpenOption> TO_READ =
            Set.of(StandardOpenOption.READ, LinkOption.NOFOLLOW_LINKS);

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
        return whole.getParent().toRealPath().resolve(whole.getFileName() + ENDING);
    }

    /**
     * Takes the lock, unless another program, or another part of this one, has it.
     *
     * @throws BadInput when the lock file cannot be written, or its name is that of another file
     */
    public static Optional<OwnerLock> tryTake(Path file) throws BadInput {
        try {
            Path path = lockFile(file);
            synchronized (OWNED) {
                return OWNED.containsKey(path) ? Optional.empty() : tryLock(path);
            }
        } catch (IOException | ReadOnlyFileSystemException fault) {
            throw WholeFile.describe(file, fault);
        }
    }

    /**
     * Takes the lock.
     *
     * @param what what it is that only one program at a time may do, as a noun phrase
     * @throws BadInput as {@link #tryTake}, and when another program has the lock
     */
    public static OwnerLock take(Path file, String what) throws BadInput {
        Optional<OwnerLock> lock = tryTake(file);
        if (lock.isEmpty()) {
            String owner = owner(file).map(o -> " by " + o).orElse("");
            throw new BadInput(file.toString(), "", what, "in use" + owner);
        }
        return lock.get();
    }

    private static Optional<OwnerLock> tryLock(Path path) throws IOException, BadInput {
        for (int i = 0; i < TRIES; i++) {
            refuseOtherKinds(path);
            FileChannel channel = FileChannel.open(path, TO_LOCK);
            boolean taken = false;
            try {
                if (!isLocked(channel)) {
                    return Optional.empty();
                }
                if (!isOurs(text(channel))) {
                    throw notOurs(path, "a file of another kind");
                }
                String words = writeWords(path, channel);
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
        return Optional.empty();
    }

    /** One look only: another program may delete its lock file at any moment. */
    private static void refuseOtherKinds(Path path) throws IOException, BadInput {
        BasicFileAttributes there;
        try {
            there =
                    Files.readAttributes(
                            path, BasicFileAttributes.class, LinkOption.NOFOLLOW_LINKS);
        } catch (NoSuchFileException none) {
            return;
        }
        if (!there.isRegularFile()) {
            throw notOurs(path, there.isDirectory() ? "a folder" : "a link or a device");
        }
    }

    private static BadInput notOurs(Path path, String found) {
        return new BadInput(
                path.toString(),
                "",
                "no file, or a lock that Padward made: this name is needed for one",
                found + ", which is left as it is");
    }

    /** A program that was killed may have left an empty lock file, or the beginning of its text. */
    private static boolean isOurs(String text) {
        return text.startsWith(FIRST_LINE) || FIRST_LINE.startsWith(text);
    }

    private static boolean isLocked(FileChannel channel) throws IOException {
        try {
            return channel.tryLock(PLACE, 1, false) != null;
        } catch (OverlappingFileLockException here) {
            return false;
        }
    }

    private static String writeWords(Path path, FileChannel channel) throws IOException {
        String user = System.getProperty("user.name", "");
        String words =
                FIRST_LINE
                        + "process "
                        + ProcessHandle.current().pid()
                        + (user.isBlank() ? "" : ", " + user)
                        + "\n"
                        + UUID.randomUUID()
                        + "\n";
        ByteBuffer bytes = ByteBuffer.wrap(words.getBytes(StandardCharsets.UTF_8));
        try {
            channel.truncate(0);
            channel.position(0);
            while (bytes.hasRemaining()) {
                channel.write(bytes);
            }
        } catch (IOException full) {
            Files.deleteIfExists(path);
            throw full;
        }
        return words;
    }

    private static String text(FileChannel channel) throws IOException {
        ByteBuffer found = ByteBuffer.allocate(LONGEST);
        int length = 0;
        while (length >= 0 && found.hasRemaining()) {
            length = channel.read(found, found.position());
        }
        return new String(found.array(), 0, found.position(), StandardCharsets.UTF_8);
    }

    /** The file under the name, left open, if it is the one with these words. */
    private static Optional<FileChannel> readBack(Path path, String words) throws IOException {
        FileChannel other;
        try {
            other = FileChannel.open(path, TO_READ);
        } catch (NoSuchFileException gone) {
            return Optional.empty();
        }
        if (text(other).equals(words)) {
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
                String words = OWNED.containsKey(path) ? OWNED.get(path) : read(path);
                return words.startsWith(FIRST_LINE)
                        ? words.lines().skip(1).findFirst().filter(l -> !l.isBlank())
                        : Optional.empty();
            } catch (IOException unknown) {
                return Optional.empty();
            }
        }
    }

    private static String read(Path path) throws IOException {
        try (FileChannel channel = FileChannel.open(path, TO_READ)) {
            return text(channel);
        }
    }

    @Override
    public void close() {
        synchronized (OWNED) {
            String words = OWNED.remove(path);
            // Open until the file is deleted: closing it ends the lock.
            Optional<FileChannel> now = Optional.empty();
            try {
                now = readBack(path, words);
                if (now.isPresent()) {
                    Files.deleteIfExists(path);
                }
            } catch (IOException stays) {
                // Some systems do not delete an open file; the next owner reuses it.
            } finally {
                now.ifPresent(OwnerLock::closeQuietly);
                closeQuietly(channel);
                closeQuietly(readBack);
            }
        }
    }

    private static void closeQuietly(FileChannel channel) {
        try {
            channel.close();
        } catch (IOException ended) {
            // The lock ends with the program at the latest.
        }
    }
}
