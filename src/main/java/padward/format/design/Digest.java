package padward.format.design;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.DigestOutputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import padward.base.BadInput;
import padward.base.ReadFault;
import padward.design.Design;

/** SHA-256 digests (FIPS 180-4), as hexadecimal digits. */
public final class Digest {
    private static final int CHUNK = 1 << 16;

    private Digest() {}

    /**
     * The digest of a file's bytes.
     *
     * @throws BadInput when it cannot be read
     */
    public static String of(Path file) throws BadInput {
        MessageDigest digest = sha256();
        byte[] chunk = new byte[CHUNK];
        try (InputStream in = Files.newInputStream(file)) {
            for (int count = in.read(chunk); count > 0; count = in.read(chunk)) {
                digest.update(chunk, 0, count);
            }
        } catch (IOException fault) {
            throw ReadFault.of(file.toString(), fault);
        }
        return HexFormat.of().formatHex(digest.digest());
    }

    /**
     * The digest of a design as it would be written, whatever file it came from. O(size of the
     * design).
     */
    public static String of(Design design) {
        MessageDigest digest = sha256();
        try (OutputStream bytes = new DigestOutputStream(OutputStream.nullOutputStream(), digest)) {
            DesignWriter.write(design, bytes, "fabric", "");
        } catch (IOException impossible) {
            throw new UncheckedIOException("nothing is written anywhere", impossible);
        }
        return HexFormat.of().formatHex(digest.digest());
    }

    private static MessageDigest sha256() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException impossible) {
            throw new IllegalStateException("every JDK has SHA-256", impossible);
        }
    }
}
