package padward.format.compact;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.security.DigestOutputStream;
import java.security.MessageDigest;
import java.util.Arrays;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import padward.base.BadInput;
import padward.base.Progress;
import padward.base.SideWork;
import padward.base.WholeFile;
import padward.fabric.compact.CompactIn;
import padward.fabric.compact.CompactOut;
import padward.fabric.compact.Damaged;
import padward.format.source.Source;
import padward.format.source.SourceDigest;

/**
 * Compact copies of what files of one sort contain. A copy is found by the digest of the very bytes
 * that were read, so a file that was changed has none. A copy counts only if its own digest is
 * right and each number in it is that of something there is; otherwise there is none, and the next
 * one written replaces it. Whatever goes wrong with copies, the file itself is read.
 *
 * <p>A copy is the mark of its sort, the layout's number, the source's digest, the contents, and
 * the digest of all before it.
 */
public final class Copies {
    private static final int HEAD = CopySort.MARK_BYTES + Integer.BYTES + SourceDigest.BYTES;

    /** Sources shorter than this are read about as fast as a copy would be. */
    private static final long SHORT = 1 << 18;

    private static final int ROOM = 1 << 16;

    private final CopyFolder folder;
    private final long mostBytes;
    private final CopySort sort;

    /**
     * Copies of a sort in a folder.
     *
     * @param mostBytes of all copies there, those of other sorts included
     */
    public Copies(CopyFolder folder, long mostBytes, CopySort sort) {
        this.folder = folder;
        this.mostBytes = mostBytes;
        this.sort = sort;
    }

    /** Where copies of a source are; empty when none are made of it. */
    public static Optional<Copies> of(Source source, CopySort sort) {
        return source instanceof Source.OfFile && source.size() >= SHORT
                ? CopyFolder.find().map(f -> new Copies(f, CopyFolder.MOST_BYTES, sort))
                : Optional.empty();
    }

    /** Reads a source in its own form. */
    public interface Reader<T> {
        /**
         * Reads it.
         *
         * @throws BadInput when it cannot be read or has a fault
         */
        T read() throws BadInput;
    }

    /** Reads the contents of a copy. */
    public interface FromCopy<T> {
        /**
         * Reads them.
         *
         * @throws IOException when they are not sound
         */
        T read(CompactIn in) throws IOException;
    }

    /** Writes the contents of a copy of what was read from a source. */
    public interface ToCopy<T> {
        /**
         * Writes it.
         *
         * @throws IOException when it cannot be written, or is not to be kept
         * @throws BadInput when what has to be known for it cannot be read
         */
        void write(T thing, CompactOut out) throws IOException, BadInput;

        /** Whether a copy of it would not be too large to be kept. */
        default boolean fits(T thing) {
            return true;
        }
    }

    /**
     * What a source contains from its copy, if there is a sound one. Where a processor is free,
     * digests are calculated on it, while the copy that is most likely the right one is read; it
     * counts only once the digests say so.
     *
     * @param contents reads it; a fault is one of the copy
     * @throws BadInput when the source cannot be read
     * @throws CancellationException when {@code progress} is cancelled
     */
    public <T> Optional<T> find(Source source, FromCopy<T> contents, Progress progress)
            throws BadInput {
        long length = source.size();
        Optional<Path> likely = folder.likely(length, sort);
        if (likely.isEmpty()) {
            return Optional.empty();
        }
        Beside beside = new Beside(progress);
        SideWork<SourceDigest, BadInput> digest =
                new SideWork<>(() -> SourceDigest.of(source, beside));
        digest.offer();
        try {
            Optional<T> first = find(likely.get(), contents, digest, beside);
            Path right = folder.copy(digest.get().toText(), length, sort);
            return first.isPresent() || right.equals(likely.get())
                    ? first
                    : find(right, contents, digest, beside);
        } finally {
            beside.end();
        }
    }

    /**
     * Reads a source in its own form and keeps a copy of what was read.
     *
     * @throws BadInput when the source cannot be read or has a fault
     * @throws CancellationException when {@code progress} is cancelled
     */
    public <T> T read(Source source, Reader<T> reader, ToCopy<T> contents, Progress progress)
            throws BadInput {
        long length = source.size();
        SourceDigest digest = SourceDigest.of(source, progress);
        T thing = reader.read();
        // what was read may have been written meanwhile
        if (contents.fits(thing) && hasDigest(source, digest, progress)) {
            keep(digest, length, out -> contents.write(thing, out), progress);
        }
        return thing;
    }

    /** Whether a source has a digest still. */
    private static boolean hasDigest(Source source, SourceDigest digest, Progress progress) {
        try {
            return SourceDigest.of(source, progress).equals(digest);
        } catch (BadInput gone) {
            return false; // what was read from it counts all the same
        }
    }

    /** What a copy has, if it is a sound one of what has a digest. */
    private <T> Optional<T> find(
            Path file, FromCopy<T> contents, SideWork<SourceDigest, BadInput> digest, Beside beside)
            throws BadInput {
        try (FileChannel channel = FileChannel.open(file, StandardOpenOption.READ)) {
            T thing = read(channel, contents, digest, beside);
            CopyFolder.setUsed(file);
            return Optional.of(thing);
        } catch (IOException noneOrDamaged) {
            return Optional.empty();
        }
    }

    private <T> T read(
            FileChannel channel,
            FromCopy<T> contents,
            SideWork<SourceDigest, BadInput> digest,
            Beside beside)
            throws IOException, BadInput {
        long whole = channel.size() - SourceDigest.BYTES;
        Damaged.unless(whole >= HEAD, "cut short");
        SideWork<byte[], IOException> own = new SideWork<>(() -> digest(channel, whole, beside));
        own.offer();
        InputStream bytes = Channels.newInputStream(channel);
        ByteBuffer head = ByteBuffer.wrap(bytes.readNBytes(HEAD));
        byte[] mark = new byte[CopySort.MARK_BYTES];
        head.get(mark);
        Damaged.unless(Arrays.equals(mark, sort.markBytes()), "another kind of file");
        Damaged.unless(head.getInt() == sort.layout(), "another layout");
        CompactIn in = new CompactIn(new BufferedInputStream(bytes, ROOM), whole - HEAD, beside);
        T thing = contents.read(in);
        in.end();
        byte[] end = new byte[SourceDigest.BYTES];
        readFully(channel, whole, ByteBuffer.wrap(end));
        Damaged.unless(Arrays.equals(end, own.get()), "another digest");
        Damaged.unless(
                head.equals(ByteBuffer.wrap(digest.get().bytes())), "a copy of something else");
        return thing;
    }

    /** The digest of so many bytes; moves nothing that reads the channel on another thread. */
    private static byte[] digest(FileChannel channel, long length, Progress progress)
            throws IOException {
        MessageDigest sum = SourceDigest.start();
        ByteBuffer room = ByteBuffer.allocate(ROOM);
        for (long at = 0; at < length; at += room.limit()) {
            progress.check();
            room.clear().limit((int) Math.min(ROOM, length - at));
            readFully(channel, at, room);
            sum.update(room.flip());
        }
        return sum.digest();
    }

    private static void readFully(FileChannel channel, long position, ByteBuffer room)
            throws IOException {
        long at = position;
        while (room.hasRemaining()) {
            int got = channel.read(room, at);
            Damaged.unless(got > 0, "cut short");
            at += got;
        }
    }

    /** Writes the contents of one copy. */
    interface Writing {
        void write(CompactOut out) throws IOException, BadInput;
    }

    /**
     * Keeps a copy, where that is possible.
     *
     * @throws CancellationException when {@code progress} is cancelled; no copy is left then
     */
    void keep(SourceDigest digest, long length, Writing contents, Progress progress) {
        Path file = folder.copy(digest.toText(), length, sort);
        try {
            folder.make();
            WholeFile.write(file, out -> write(out, digest, contents, progress));
        } catch (IOException | BadInput notPossible) {
            return; // next time it is read again
        }
        folder.limitTo(mostBytes);
    }

    private void write(OutputStream plain, SourceDigest digest, Writing contents, Progress progress)
            throws IOException, BadInput {
        MessageDigest sum = SourceDigest.start();
        DigestOutputStream bytes = new DigestOutputStream(plain, sum);
        bytes.write(sort.markBytes());
        bytes.write(ByteBuffer.allocate(Integer.BYTES).putInt(sort.layout()).array());
        bytes.write(digest.bytes());
        CompactOut out = new CompactOut(bytes, progress);
        contents.write(out);
        out.finish();
        plain.write(sum.digest());
    }
}
