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
     * The fabric of a source: from its copy or, where there is none that is sound, read, of which a
     * copy is then kept.
     *
     * @throws BadInput when the source cannot be read or is no fabric
     * @throws CancellationException when {@code progress} is cancelled
     */
    public ExplicitFabric get(Source source, Reader reader, Progress progress) throws BadInput {
        SourceDigest digest = SourceDigest.of(source, progress);
        Optional<ExplicitFabric> copy = find(digest, progress);
        if (copy.isPresent()) {
            return copy.get();
        }
        ExplicitFabric fabric = reader.read();
        // what was read may have been written meanwhile
        if (SourceDigest.of(source, progress).equals(digest)) {
            keep(digest, fabric, progress);
        }
        return fabric;
    }

    /** The copy of what has a digest, if there is a sound one. */
    Optional<ExplicitFabric> find(SourceDigest digest, Progress progress) {
        Path file = folder.copy(digest.toText(), LAYOUT);
        try (FileChannel channel = FileChannel.open(file, StandardOpenOption.READ)) {
            ExplicitFabric fabric = read(channel, digest, progress);
            CopyFolder.setUsed(file);
            return Optional.of(fabric);
        } catch (IOException noneOrDamaged) {
            return Optional.empty();
        }
    }

    private static ExplicitFabric read(FileChannel channel, SourceDigest digest, Progress progress)
            throws IOException {
        long whole = channel.size() - SourceDigest.BYTES;
        Damaged.unless(whole >= HEAD, "cut short");
        requireDigest(channel, whole, progress);
        channel.position(0);
        InputStream bytes = Channels.newInputStream(channel);
        ByteBuffer head = ByteBuffer.wrap(bytes.readNBytes(HEAD));
        byte[] mark = new byte[MARK.length];
        head.get(mark);
        Damaged.unless(Arrays.equals(mark, MARK), "another kind of file");
        Damaged.unless(head.getInt() == LAYOUT, "another layout");
        Damaged.unless(head.equals(ByteBuffer.wrap(digest.bytes())), "a copy of something else");
        CompactIn in = new CompactIn(new BufferedInputStream(bytes, ROOM), whole - HEAD, progress);
        ExplicitFabric fabric = ExplicitFabric.read(in);
        in.end();
        return fabric;
    }

    /** Requires that what stands behind so many bytes is their digest. */
    private static void requireDigest(FileChannel channel, long length, Progress progress)
            throws IOException {
        MessageDigest sum = SourceDigest.start();
        ByteBuffer room = ByteBuffer.allocate(ROOM);
        long left = length;
        while (left > 0) {
            if (progress.cancelled()) {
                throw new CancellationException("reading a copy");
            }
            room.clear().limit((int) Math.min(ROOM, left));
            int got = channel.read(room);
            Damaged.unless(got > 0, "cut short");
            sum.update(room.flip());
            left -= got;
        }
        byte[] stated = Channels.newInputStream(channel).readNBytes(SourceDigest.BYTES);
        Damaged.unless(Arrays.equals(stated, sum.digest()), "another digest");
    }

    /**
     * Keeps a copy, where that is possible.
     *
     * @throws CancellationException when {@code progress} is cancelled; no copy is left then
     */
    void keep(SourceDigest digest, ExplicitFabric fabric, Progress progress) {
        if (fabric.graphBytes() + fabric.nameBytes() > mostBytes) {
            return;
        }
        Path file = folder.copy(digest.toText(), LAYOUT);
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
