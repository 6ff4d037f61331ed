package padward.base;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.HashSet;
import java.util.Optional;
import java.util.Set;

/**
 * A file that is being written under a temporary name. The operating system's lock on it shows
 * other programs that it is; it ends with the program, so what a killed one left is known by having
 * none. Where there are no locks, left files stay.
 */
final class PartFile implements AutoCloseable {
    private static final int TRIES = 20;

    /** A byte far behind what is written: what is written stays readable where locks forbid it. */
    private static final long PLACE = Long.MAX_VALUE - 1;

    /** Of this program: opening one of them once more, and closing it, would end its lock. */
    private static final Set<Path> OWN = new HashSet<>();

    private final Path path;
    private final FileChannel channel;

    private PartFile(Path path, FileChannel channel) {
        this.path = path;
        this.channel = channel;
    }

    /** Makes one for a file that is to be replaced or made. */
    static PartFile create(Path target) throws IOException {
        for (int i = 0; ; i++) {
            Path path = TemporaryName.PART.nextTo(target);
            synchronized (OWN) {
                OWN.add(path);
                boolean made = false;
                try {
                    FileChannel channel = FileRights.create(path, target);
                    // Another program may just have taken it for a file that was left.
                    boolean ours = lock(channel).isPresent() && Files.exists(path);
                    if (ours || i == TRIES) {
                        made = true;
                        return new PartFile(path, channel);
                    }
                    channel.close();
                } finally {
                    if (!made) {
                        OWN.remove(path);
                    }
                }
            }
        }
    }

    /** Whether nobody else has it locked; where locks are not known, nobody has. */
    private static Optional<FileChannel> lock(FileChannel channel) {
        try {
            FileLock lock = channel.tryLock(PLACE, 1, false);
            return lock == null ? Optional.empty() : Optional.of(channel);
        } catch (IOException | UnsupportedOperationException unknown) {
            return Optional.of(channel);
        }
    }

    /** Deletes what killed programs left next to a file. */
    static void clear(Path target) {
        for (Path left : TemporaryName.PART.findAll(target)) {
            synchronized (OWN) {
                if (!OWN.contains(left) && Files.isRegularFile(left, LinkOption.NOFOLLOW_LINKS)) {
                    clearUnlocked(left);
                }
            }
        }
    }

    private static void clearUnlocked(Path left) {
        try (FileChannel channel =
                FileChannel.open(left, StandardOpenOption.WRITE, LinkOption.NOFOLLOW_LINKS)) {
            if (channel.tryLock(PLACE, 1, false) != null) {
                Files.deleteIfExists(left);
            }
        } catch (IOException | UnsupportedOperationException stays) {
            // It does no damage where it is.
        }
    }

    Path path() {
        return path;
    }

    FileChannel channel() {
        return channel;
    }

    /** Ends the lock; to be called when the file has its name, or is deleted. */
    @Override
    public void close() throws IOException {
        synchronized (OWN) {
            OWN.remove(path);
            channel.close();
        }
    }
}
