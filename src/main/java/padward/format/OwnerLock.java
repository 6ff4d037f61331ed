package padward.format;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Optional;
import java.util.UUID;

/**
 * A lock that one program at a time has on a file: the system's lock on a small file beside it,
 * which goes with the program, however that ends. The small file says who has it.
 *
 * <p>The small file is taken away with the lock. Whoever opened it before that has locked a file
 * that nobody else will find; so the lock counts only once the words just written are read back
 * through the file's name.
 */
final class OwnerLock implements AutoCloseable {
    private static final int TRIES = 20;

    /** A byte far behind the text, so that others can read the text where locks forbid reading. */
    private static final long PLACE = Long.MAX_VALUE - 1;

    private final Path path;
    private final FileChannel channel;

    private OwnerLock(Path path, FileChannel channel) {
        this.path = path;
        this.channel = channel;
    }

    private static Path beside(Path file) {
        return file.resolveSibling(file.getFileName() + ".lock");
    }

    /**
     * Takes the lock, unless another program, or another part of this one, has it.
     *
     * @throws IOException when the small file cannot be written
     */
    static Optional<OwnerLock> tryTake(Path file) throws IOException {
        Path path = beside(file);
        for (int i = 0; i < TRIES; i++) {
            FileChannel channel =
                    FileChannel.open(path, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
            boolean taken = false;
            try {
                if (!locked(channel)) {
                    return Optional.empty();
                }
                taken = isNamed(path, channel);
                if (taken) {
                    return Optional.of(new OwnerLock(path, channel));
                }
            } finally {
                if (!taken) {
                    channel.close();
                }
            }
        }
        return Optional.empty();
    }

    private static boolean locked(FileChannel channel) throws IOException {
        try {
            FileLock lock = channel.tryLock(PLACE, 1, false);
            return lock != null;
        } catch (OverlappingFileLockException here) {
            return false;
        }
    }

    /** Whether the locked file is the one that stands under the name. */
    private static boolean isNamed(Path path, FileChannel channel) throws IOException {
        String words =
                "process "
                        + ProcessHandle.current().pid()
                        + ", "
                        + Signing.user()
                        + "\n"
                        + UUID.randomUUID()
                        + "\n";
        ByteBuffer bytes = ByteBuffer.wrap(words.getBytes(StandardCharsets.UTF_8));
        channel.truncate(0);
        while (bytes.hasRemaining()) {
            channel.write(bytes);
        }
        try {
            return Files.readString(path).equals(words);
        } catch (NoSuchFileException gone) {
            return false;
        }
    }

    /** Who has the lock on a file, as the small file tells it; empty when it does not. */
    static Optional<String> owner(Path file) {
        try (var lines = Files.lines(beside(file))) {
            return lines.findFirst().filter(l -> !l.isBlank());
        } catch (IOException | RuntimeException unknown) {
            return Optional.empty();
        }
    }

    @Override
    public void close() throws IOException {
        try {
            Files.deleteIfExists(path);
        } catch (IOException stays) {
            // Some systems keep a file that is open; the next one to lock it takes it as it is.
        } finally {
            channel.close();
        }
    }
}
