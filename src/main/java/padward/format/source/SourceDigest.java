package padward.format.source;

import java.io.IOException;
import java.io.InputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import padward.base.BadInput;
import padward.base.Progress;

/**
 * The digest of all bytes of a source, as they are in the file: SHA-512/256 (FIPS 180-4). Without
 * instructions made for it, SHA-256 takes 1.6 times as long.
 */
public final class SourceDigest {
    /** Length of a digest. */
    public static final int BYTES = 32;

    private static final int ROOM = 1 << 16;

    private final byte[] bytes;

    private SourceDigest(byte[] bytes) {
        this.bytes = bytes;
    }

    /**
     * The digest of a source. O(length).
     *
     * @throws BadInput when it cannot be read
     * @throws java.util.concurrent.CancellationException when {@code progress} is cancelled
     */
    public static SourceDigest of(Source source, Progress progress) throws BadInput {
        MessageDigest sum = start();
        byte[] room = new byte[ROOM];
        try (InputStream in = new MeteredStream(source.open(), source, progress)) {
            for (int got = in.read(room); got >= 0; got = in.read(room)) {
                sum.update(room, 0, got);
            }
        } catch (IOException e) {
            throw IoFaults.describe(source, e);
        }
        return new SourceDigest(sum.digest());
    }

    /** A digest of the same kind that is about to be calculated. */
    public static MessageDigest start() {
        try {
            return MessageDigest.getInstance("SHA-512/256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException(e); // every Java since 9 has it
        }
    }

    /** Its bytes. */
    public byte[] bytes() {
        return bytes.clone();
    }

    /** Its bytes as 64 hexadecimal digits. */
    public String toText() {
        return HexFormat.of().formatHex(bytes);
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof SourceDigest digest && MessageDigest.isEqual(bytes, digest.bytes);
    }

    @Override
    public int hashCode() {
        return toText().hashCode();
    }
}
