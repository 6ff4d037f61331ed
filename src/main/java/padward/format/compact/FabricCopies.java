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
import padward.fabric.explicit.ExplicitFabric;
import padward.format.source.Source;
import padward.format.source.SourceDigest;

/**
 * Compact copies of explicit fabrics. A copy is found by the digest of the very bytes that were
 * read, so a file that was changed has none. A copy counts only if its own digest is right and each
 * number in it is that of something there is; otherwise there is none, and the next one written
 * replaces it. Whatever goes wrong with copies, the fabric is read from its own file.
 *
 * <p>A copy is the text {@code PADWARD COMPACT}, the layout's number, the source's digest, the
 * fabric ({@link ExplicitFabric#write}), and the digest of all before it.
 */
public final class FabricCopies {
    /**
     * Number of the layout. To be raised when the layout changes, and when the same file would be
     * read to another fabric, or refused, by now.
     */
    static final int LAYOUT = 5;

    private static final byte[] MARK = {
        'P', 'A', 'D', 'W', 'A', 'R', 'D', ' ', 'C', 'O', 'M', 'P', 'A', 'C', 'T', '\n'
    };

    private static final int HEAD = MARK.length + Integer.BYTES + SourceDigest.BYTES;

    /** Sources shorter than this are read about as fast as a copy would be. */
    private static final long SHORT = 1 << 18;

    private static final int ROOM = 1 << 16;

    private final CopyFolder folder;
    private final long mostBytes;

    FabricCopies(CopyFolder folder, long mostBytes) {
        this.folder = folder;
        this.mostBytes = mostBytes;
    }

    /** Where copies of a source are; empty when none are made of it. */
    public static Optional<FabricCopies> of(Source source) {
        return source instanceof Source.OfFile && source.size() >= SHORT
                ? CopyFolder.find().map(f -> new FabricCopies(f, CopyFolder.MOST_BYTES))
                : Optional.empty();
    }

    /** Reads a source in its own form. */
    public interface Reader {
        /**
         * Reads it.
         *
         * @throws BadInput when it cannot be read or is no fabric
         */
        ExplicitFabric read() throws BadInput;
    }

    /**
     * The fabric of a source from its copy, if there is a sound one. Where a processor is free,
     * digests are calculated on it, while the copy that is most likely the right one is read; it
     * counts only once the digests say so.
     *
     * @throws BadInput when the source cannot be read
     * @throws CancellationException when {@code progress} is cancelled
     */
    public Optional<ExplicitFabric> find(Source source, Progress progress) throws BadInput {
        long length = source.size();
        Optional<Path> likely = folder.likely(length, LAYOUT);
        if (likely.isEmpty()) {
            return Optional.empty();
        }
        Beside beside = new Beside(progress);
        SideWork<SourceDigest, BadInput> digest =
                new SideWork<>(() -> SourceDigest.of(source, beside));
        digest.offer();
        try {
            Optional<ExplicitFabric> first = find(likely.get(), digest, beside);
            Path right = folder.copy(digest.get().toText(), length, LAYOUT);
            return first.isPresent() || right.equals(likely.get())
                    ? first
                    : find(right, digest, beside);
        } finally {
            beside.end();
        }
    }

    /**
     * Reads a source in its own form and keeps a copy of what was read.
     *
     * @throws BadInput when the source cannot be read or is no fabric
     * @throws CancellationException when {@code progress} is cancelled
     */
    public ExplicitFabric read(Source source, Reader reader, Progress progress) throws BadInput {
        long length = source.size();
        SourceDigest digest = SourceDigest.of(source, progress);
        ExplicitFabric fabric = reader.read();
        // what was read may have been written meanwhile
        if (SourceDigest.of(source, progress).equals(digest)) {
            keep(digest, length, fabric, progress);
        }
        return fabric;
    }

    /** Of work on another thread: stops when it is not needed any more, too. */
    private static final class Beside implements Progress {
        private final Progress caller;
        private volatile boolean over;

        private Beside(Progress caller) {
            this.caller = caller;
        }

        private void end() {
            over = true;
        }

        @Override
        public void report(double fraction, String message) {
            // whoever waits for a copy waits a moment
        }

        @Override
        public boolean cancelled() {
            return over || caller.cancelled();
        }
    }

    /** The fabric of a copy, if it is a sound one of what has a digest. */
    private static Optional<ExplicitFabric> find(
            Path file, SideWork<SourceDigest, BadInput> digest, Beside beside) throws BadInput {
        try (FileChannel channel = FileChannel.open(file, StandardOpenOption.READ)) {
            ExplicitFabric fabric = read(channel, digest, beside);
            CopyFolder.setUsed(file);
            return Optional.of(fabric);
        } catch (IOException noneOrDamaged) {
            return Optional.empty();
        }
    }

    private static ExplicitFabric read(
            FileChannel channel, SideWork<SourceDigest, BadInput> digest, Beside beside)
            throws IOException, BadInput {
        long whole = channel.size() - SourceDigest.BYTES;
        Damaged.unless(whole >= HEAD, "cut short");
        SideWork<byte[], IOException> own = new SideWork<>(() -> digest(channel, whole, beside));
        own.offer();
        InputStream bytes = Channels.newInputStream(channel);
        ByteBuffer head = ByteBuffer.wrap(bytes.readNBytes(HEAD));
        byte[] mark = new byte[MARK.length];
        head.get(mark);
        Damaged.unless(Arrays.equals(mark, MARK), "another kind of file");
        Damaged.unless(head.getInt() == LAYOUT, "another layout");
        CompactIn in = new CompactIn(new BufferedInputStream(bytes, ROOM), whole - HEAD, beside);
        ExplicitFabric fabric = ExplicitFabric.read(in);
        in.end();
        byte[] end = new byte[SourceDigest.BYTES];
        readFully(channel, whole, ByteBuffer.wrap(end));
        Damaged.unless(Arrays.equals(end, own.get()), "another digest");
        Damaged.unless(
                head.equals(ByteBuffer.wrap(digest.get().bytes())), "a copy of something else");
        return fabric;
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

    /**
     * Keeps a copy, where that is possible.
     *
     * @throws CancellationException when {@code progress} is cancelled; no copy is left then
     */
    void keep(SourceDigest digest, long length, ExplicitFabric fabric, Progress progress) {
        if (fabric.graphBytes() + fabric.nameBytes() > mostBytes) {
            return;
        }
        Path file = folder.copy(digest.toText(), length, LAYOUT);
        try {
            folder.make();
            WholeFile.write(file, out -> write(out, digest, fabric, progress));
        } catch (IOException | BadInput notPossible) {
            return; // next time it is read again
        }
        folder.limitTo(mostBytes);
    }

    private static void write(
            OutputStream plain, SourceDigest digest, ExplicitFabric fabric, Progress progress)
            throws IOException {
        MessageDigest sum = SourceDigest.start();
        DigestOutputStream bytes = new DigestOutputStream(plain, sum);
        bytes.write(MARK);
        bytes.write(ByteBuffer.allocate(Integer.BYTES).putInt(LAYOUT).array());
        bytes.write(digest.bytes());
        CompactOut out = new CompactOut(bytes, progress);
        fabric.write(out);
        out.finish();
        plain.write(sum.digest());
    }
}
