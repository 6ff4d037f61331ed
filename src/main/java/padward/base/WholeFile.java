package padward.base;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.ReadOnlyFileSystemException;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.Locale;

/**
 * Writes files so that a reader finds either the old file or the whole new one, whenever the
 * program or the machine stops: written under another name, flushed to the disk, moved into place.
 * The new file has the permissions of the old one.
 */
public final class WholeFile {
    /** What is written. */
    public interface Body {
        /**
         * Writes everything; need not close the stream.
         *
         * @throws IOException when it cannot be written
         * @throws BadInput when what is written is read from something that is at fault
         */
        void write(OutputStream out) throws IOException, BadInput;
    }

    private static final int MOST_LINKS = 40;

    private WholeFile() {}

    /** Whether two names lead to the same file, or would once it exists. */
    public static boolean isSame(Path one, Path other) {
        try {
            return Files.exists(one) && Files.exists(other)
                    ? Files.isSameFile(one, other)
                    : one.toAbsolutePath().normalize().equals(other.toAbsolutePath().normalize());
        } catch (IOException fault) {
            return false;
        }
    }

    /**
     * Writes a file. Where the name is a link, the file that it leads to is written; a device or a
     * pipe is written to as it is, and never replaced.
     *
     * @throws BadInput when that cannot be done; the old file is then unchanged
     */
    @SuppressWarnings("try") // The resource is only to be closed.
    public static void write(Path file, Body body) throws BadInput {
        if (Files.isDirectory(file)) {
            throw new BadInput(file.toString(), "", "the name of a file", "a folder");
        }
        if (Files.exists(file) && !Files.isRegularFile(file)) {
            writeInto(file, body);
            return;
        }
        Path target = end(file);
        boolean replaces = Files.exists(target);
        if (replaces && !Files.isWritable(target)) {
            throw new BadInput(
                    file.toString(), "", "a file that can be written", "a write-protected one");
        }
        PartFile.clear(target);
        try (PartFile part = PartFile.create(target);
                OnInterrupt ending = new OnInterrupt(() -> deleteQuietly(part.path()))) {
            try {
                fill(part.channel(), body);
                if (replaces) {
                    FileRights.copy(target, part.path());
                }
                Files.move(
                        part.path(),
                        target,
                        StandardCopyOption.ATOMIC_MOVE,
                        StandardCopyOption.REPLACE_EXISTING);
                forceFolder(target.getParent());
            } finally {
                deleteQuietly(part.path());
            }
        } catch (IOException | ReadOnlyFileSystemException fault) {
            throw describe(file, fault);
        }
    }

    private static void fill(FileChannel channel, Body body) throws IOException, BadInput {
        OutputStream out = new Unclosed(Channels.newOutputStream(channel));
        body.write(out);
        out.flush();
        channel.force(true);
    }

    /** Stays open until the file is flushed to the disk, whatever its writer does. */
    private static final class Unclosed extends BufferedOutputStream {
        private Unclosed(OutputStream out) {
            super(out);
        }

        @Override
        public void close() throws IOException {
            flush();
        }
    }

    private static void writeInto(Path device, Body body) throws BadInput {
        try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(device))) {
            body.write(out);
        } catch (IOException fault) {
            throw describe(device, fault);
        }
    }

    /**
     * The file that a name leads to through all links; need not exist.
     *
     * @throws BadInput when links form a loop
     */
    public static Path end(Path file) throws BadInput {
        Path end = file.toAbsolutePath();
        try {
            for (int i = 0; Files.isSymbolicLink(end); i++) {
                if (i == MOST_LINKS) {
                    throw new BadInput(
                            file.toString(),
                            "",
                            "a file that can be written",
                            "links that form a loop");
                }
                end = end.resolveSibling(Files.readSymbolicLink(end));
            }
        } catch (IOException fault) {
            throw describe(file, fault);
        }
        return end;
    }

    /**
     * Writes a text in UTF-8.
     *
     * @throws BadInput when that cannot be done; the old file is then unchanged
     */
    public static void writeText(Path file, String text) throws BadInput {
        write(file, out -> out.write(text.getBytes(StandardCharsets.UTF_8)));
    }

    /**
     * Deletes temporary files of programs that were stopped while they wrote a file. Only for the
     * owner of a lock on the file.
     */
    public static void clearLeftovers(Path file) {
        TemporaryName.PART.findAll(file).forEach(WholeFile::deleteQuietly);
    }

    /** Flushes the new name to the disk as well, where folders can be flushed. */
    private static void forceFolder(Path folder) {
        try (FileChannel channel = FileChannel.open(folder, StandardOpenOption.READ)) {
            channel.force(true);
        } catch (IOException | RuntimeException notPossible) {
            // Some systems do not open folders; the file itself is flushed all the same.
        }
    }

    /** What went wrong, for the user. */
    public static BadInput describe(Path file, Exception fault) {
        String found = "" + fault.getMessage();
        String reason =
                fault instanceof FileSystemException system && system.getReason() != null
                        ? system.getReason()
                        : found;
        String plain = reason.toLowerCase(Locale.ROOT);
        if (fault instanceof NoSuchFileException) {
            found = "no such folder";
        } else if (fault instanceof AccessDeniedException) {
            found = "no permission to write there";
        } else if (fault instanceof ReadOnlyFileSystemException || plain.contains("read-only")) {
            found = "a folder that can only be read";
        } else if (plain.contains("no space") || plain.contains("disk space")) {
            return new BadInput(
                    file.toString(), "", "space on the disk", "none left; nothing was changed");
        }
        return new BadInput(file.toString(), "", "a file that can be written", found);
    }

    private static void deleteQuietly(Path file) {
        try {
            Files.deleteIfExists(file);
        } catch (IOException | ReadOnlyFileSystemException ignored) {
            // The fault that led here is reported.
        }
    }
}
